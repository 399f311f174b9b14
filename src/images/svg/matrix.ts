/** An affine map (SVG 2, 8.5): x' = a x + c y + e, y' = b x + d y + f. */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

/** First the inner map, then the outer one. */
export const multiply = ([a, b, c, d, e, f]: Matrix, [p, q, r, s, t, u]: Matrix): Matrix => [
  a * p + c * q,
  b * p + d * q,
  a * r + c * s,
  b * r + d * s,
  a * t + c * u + e,
  b * t + d * u + f,
];

/** Parses a list of matrix, translate, scale and rotate; undefined for anything else. */
export function parseTransform(typed: string): Matrix | undefined {
  let all: Matrix = [1, 0, 0, 1, 0, 0];
  const rest = typed.replace(/\s*,?\s*(\w+)\s*\(([^)]*)\)/g, (_, name: string, list: string) => {
    const one = oneMap(
      name,
      list
        .trim()
        .split(/[\s,]+/)
        .map(Number),
    );
    if (!one) return "?";
    all = multiply(all, one);
    return "";
  });
  return rest.trim() === "" ? all : undefined;
}

function oneMap(name: string, numbers: readonly number[]): Matrix | undefined {
  if (!numbers.every(Number.isFinite)) return undefined;
  const [a = 0, b, c, d, e, f] = numbers;
  switch (name) {
    case "matrix":
      return numbers.length === 6 ? [a, b!, c!, d!, e!, f!] : undefined;
    case "translate":
      return [1, 0, 0, 1, a, b ?? 0];
    case "scale":
      return [a, 0, 0, b ?? a, 0, 0];
    case "rotate": {
      const [cos, sin] = [Math.cos((a * Math.PI) / 180), Math.sin((a * Math.PI) / 180)];
      const turn: Matrix = [cos, sin, -sin, cos, 0, 0];
      if (b === undefined || c === undefined) return turn;
      return multiply(multiply([1, 0, 0, 1, b, c], turn), [1, 0, 0, 1, -b, -c]);
    }
    default:
      return undefined;
  }
}
