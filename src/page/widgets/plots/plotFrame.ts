/** What all plots share: type, margins, a quiet grid. */
export function plotFrame(width: number, height: number) {
  return {
    width,
    height,
    marginLeft: 52,
    marginRight: 64,
    marginTop: 26,
    marginBottom: 40,
    className: "chart",
    style: {
      background: "none",
      color: "inherit",
      fontFamily: "inherit",
      fontSize: "12px",
      overflow: "visible",
    },
  };
}
