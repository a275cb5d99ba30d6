/** What one output stream can show. */
export interface Terminal {
  readonly colour: boolean;
  /** Lines can be rewritten: progress may be shown. */
  readonly live: boolean;
  readonly columns: number;
}
interface Stream {
  readonly isTTY?: boolean;
  readonly columns?: number;
}

/** Text off a terminal, and on one that does not tell its width, is laid out for this width. */
const usualColumns = 100;
const fewestColumns = 80;
const mostColumns = 120;

/**
 * Decides for one stream by itself: standard output may be a file while standard error is a terminal.
 * @param colourWanted  false after `--no-color`
 * Source: no-color.org's convention: NO_COLOR, when not empty, turns colour off; `TERM=dumb` by POSIX practice.
 */
export function terminalOf(
  stream: Stream,
  environment: Readonly<Record<string, string | undefined>>,
  colourWanted = true,
): Terminal {
  const capable = stream.isTTY === true && environment.TERM !== "dumb";
  const columns = Number((stream.isTTY ? stream.columns : undefined) ?? environment.COLUMNS) || usualColumns;
  return {
    colour: capable && colourWanted && !environment.NO_COLOR,
    live: capable,
    columns: Math.max(fewestColumns, Math.min(mostColumns, columns)),
  };
}
