/** Path data of a basic shape (SVG 2, chapter 10); undefined where its size is missing. */
export function shapePath(name: string, own: Readonly<Record<string, string>>): string | undefined {
  const number = (key: string, other?: number) => (own[key] === undefined ? other : Number(own[key]));
  const oval = (rx?: number, ry?: number) => {
    if (!rx || !ry) return undefined;
    const [cx, cy] = [number("cx", 0)!, number("cy", 0)!];
    return `M${cx - rx} ${cy}a${rx} ${ry} 0 1 0 ${2 * rx} 0a${rx} ${ry} 0 1 0 ${-2 * rx} 0Z`;
  };
  switch (name) {
    case "circle":
      return oval(number("r"), number("r"));
    case "ellipse":
      return oval(number("rx"), number("ry"));
    case "polygon":
      return own.points === undefined ? undefined : `M${own.points.trim()}Z`;
    case "rect":
      return rectanglePath(number("x", 0)!, number("y", 0)!, number("width"), number("height"), [
        number("rx", number("ry", 0))!,
        number("ry", number("rx", 0))!,
      ]);
    default:
      return undefined;
  }
}

function rectanglePath(
  x: number,
  y: number,
  width: number | undefined,
  height: number | undefined,
  [wide, tall]: readonly [number, number],
): string | undefined {
  if (!width || !height) return undefined;
  const [rx, ry] = [Math.min(wide, width / 2), Math.min(tall, height / 2)];
  if (rx <= 0 || ry <= 0) return `M${x} ${y}h${width}v${height}h${-width}Z`;
  const corner = (dx: number, dy: number) => `a${rx} ${ry} 0 0 1 ${dx} ${dy}`;
  const [w, h] = [width - 2 * rx, height - 2 * ry];
  return `M${x + rx} ${y}h${w}${corner(rx, ry)}v${h}${corner(-rx, ry)}h${-w}${corner(-rx, -ry)}v${-h}${corner(rx, -ry)}Z`;
}
