import type { Path } from "./yaml.js";

/** The plain data at a path; undefined where nothing stands. */
export function valueAt(data: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (value, step) =>
      typeof value === "object" && value !== null && Object.hasOwn(value, step)
        ? Reflect.get(value, step)
        : undefined,
    data,
  );
}

/** The list at a path; empty where none stands. */
export function listAt(data: unknown, path: Path): readonly unknown[] {
  const value = valueAt(data, path);
  return Array.isArray(value) ? value : [];
}

/** The map at a path; empty where none stands. */
export function mapAt(data: unknown, path: Path): Readonly<Record<string, unknown>> {
  const value = valueAt(data, path);
  return isMap(value) ? value : {};
}

const isMap = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
