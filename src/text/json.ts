/**
 * Plain data as JSON with two spaces of indent, lists of numbers on one line each, and a line end.
 * Keys stay in their order, numbers in full precision; what is no finite number is `null`.
 */
export function jsonOf(value: unknown): string {
  // A line break never stands inside a JSON string, so this pattern meets none.
  return `${JSON.stringify(value, null, 2).replace(numberList, (list) => list.replace(/\s+/g, " "))}\n`;
}

const numberList = /\[\s+(?:-?[\d.eE+-]+|null)(?:,\s+(?:-?[\d.eE+-]+|null))*\s+\]/g;
