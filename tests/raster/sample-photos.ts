import { encode as png } from "fast-png";
import { encode as jpeg } from "jpeg-js";

/** Pixels of a rule, row by row. */
export type Rule = (x: number, y: number) => readonly [number, number, number];

const rgba = (width: number, height: number, rule: Rule) => {
  const data = new Uint8Array(width * height * 4);
  for (let y = 0, at = 0; y < height; y++) for (let x = 0; x < width; x++, at += 4) data.set([...rule(x, y), 255], at);
  return data;
};

export const jpegOf = (width: number, height: number, rule: Rule, quality = 95): Uint8Array =>
  new Uint8Array(jpeg({ width, height, data: rgba(width, height, rule) }, quality).data);

export const pngOf = (width: number, height: number, rule: Rule): Uint8Array =>
  png({ width, height, channels: 4, depth: 8, data: rgba(width, height, rule) });

export const COLOURS = { red: [255, 0, 0], green: [0, 160, 0], blue: [0, 0, 255], yellow: [255, 230, 0] } as const;
const CORNERS = [
  [COLOURS.red, COLOURS.green],
  [COLOURS.blue, COLOURS.yellow],
] as const;

/**
 * Where the stored picture's first row and first column stand when it is looked at (CIPA DC-008-2023, 4.6.5.1.6, orientation;
 * the same in TIFF 6.0, page 36).
 */
const STORED: Readonly<Record<number, readonly [row: Edge, column: Edge]>> = {
  1: ["top", "left"],
  2: ["top", "right"],
  3: ["bottom", "right"],
  4: ["bottom", "left"],
  5: ["left", "top"],
  6: ["right", "top"],
  7: ["right", "bottom"],
  8: ["left", "bottom"],
};
type Edge = "top" | "bottom" | "left" | "right";

/** A photo that shows red, green above blue, yellow when it is the right way up, stored as a camera held so would store it. */
export function turnedPhoto(orientation: number, width: number, height: number): Uint8Array {
  const [row, column] = STORED[orientation]!;
  const lying = row === "top" || row === "bottom";
  const [across, down] = lying ? [width, height] : [height, width];
  const seen = (edge: Edge, n: number) =>
    edge === "top"
      ? { y: n }
      : edge === "bottom"
        ? { y: height - 1 - n }
        : edge === "left"
          ? { x: n }
          : { x: width - 1 - n };
  const bytes = jpegOf(across, down, (c, r) => {
    const { x = 0, y = 0 } = { ...seen(row, r), ...seen(column, c) } as { x?: number; y?: number };
    return CORNERS[y < height / 2 ? 0 : 1]![x < width / 2 ? 0 : 1]!;
  });
  return carrying(bytes, exif(orientation));
}

/** Segments after the start of a JPEG. */
export const carrying = (bytes: Uint8Array, ...extra: readonly Uint8Array[]): Uint8Array =>
  Buffer.concat([bytes.subarray(0, 2), ...extra, bytes.subarray(2)]);

export const segment = (code: number, ...body: readonly (string | Uint8Array)[]): Uint8Array => {
  const bytes = Buffer.concat(body.map((part) => (typeof part === "string" ? Buffer.from(part, "latin1") : part)));
  return Buffer.concat([Buffer.from([0xff, code, (bytes.length + 2) >> 8, (bytes.length + 2) & 255]), bytes]);
};

/** Exif with one entry, the orientation, and a text behind it. */
export const exif = (orientation: number, text = ""): Uint8Array =>
  segment(
    0xe1,
    "Exif\0\0",
    new Uint8Array([
      0x4d,
      0x4d,
      0,
      42,
      0,
      0,
      0,
      8,
      0,
      1,
      0x01,
      0x12,
      0,
      3,
      0,
      0,
      0,
      1,
      0,
      orientation,
      0,
      0,
      0,
      0,
      0,
      0,
    ]),
    text,
  );

const base64 = (text: string) => new Uint8Array(Buffer.from(text, "base64"));
/**
 * 64 × 48 pixels by ImageMagick 6.9 (libjpeg-turbo): lime at the top left, yellow at the bottom right, elsewhere red into
 * blue downwards.
 */
export const SAMPLES = {
  progressive: base64(
    "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAA0JCgsKCA0LCgsODg0PEyAVExISEyccHhcgLikxMC4pLSwzOko+MzZGNywtQFdBRkxOUlNSMj5aYVpQYEpRUk//2wBDAQ4ODhMREyYVFSZPNS01T09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT0//wgARCAAwAEADASIAAhEBAxEB/8QAGAABAQEBAQAAAAAAAAAAAAAAAAYCBQP/xAAaAQEAAgMBAAAAAAAAAAAAAAAABQYBAwQH/9oADAMBAAIQAxAAAAH3EPAAcdhJ3zbA7afZrFAnxtaOSWi1oIZha+TbAvB59tA//8QAFBABAAAAAAAAAAAAAAAAAAAAUP/aAAgBAQABBQJD/8QAGhEAAgIDAAAAAAAAAAAAAAAAABMBEBViof/aAAgBAwEBPwGmDDGb8MZvwdI6Rgy//8QAGxEAAQQDAAAAAAAAAAAAAAAAAAETFVIQoeH/2gAIAQIBAT8Bw2NkatiNWxJpTfCTSm+DY3n/xAAUEAEAAAAAAAAAAAAAAAAAAABQ/9oACAEBAAY/AkP/xAAWEAEBAQAAAAAAAAAAAAAAAAARACD/2gAIAQEAAT8hwzM5ZmcszMzM5ZmcszOf/9oADAMBAAIAAwAAABAEE8800MM44IL/xAAZEQABBQAAAAAAAAAAAAAAAAAAESBh0fD/2gAIAQMBAT8QYIxYjFkRE0//xAAYEQADAQEAAAAAAAAAAAAAAAABIOHwAP/aAAgBAgEBPxBPQXtBXhD/AP/EABQQAQAAAAAAAAAAAAAAAAAAAFD/2gAIAQEAAT8QQAAAA//Z",
  ),
  inks: base64(
    "/9j/7gAOQWRvYmUAZAAAAAAC/9sAQwAQCwwODAoQDg0OEhEQExgoGhgWFhgxIyUdKDozPTw5Mzg3QEhcTkBEV0U3OFBtUVdfYmdoZz5NcXlwZHhcZWdj/9sAQwEREhIYFRgvGhovY0I4QmNjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2Nj/8AAFAgAMABABAEiAAIRAQMRAQQiAP/EABoAAQEAAwEBAAAAAAAAAAAAAAAGBAUHAgP/xAAZEAEBAQEBAQAAAAAAAAAAAAAAYRQSExH/xAAZAQEAAwEBAAAAAAAAAAAAAAAABQYHAwT/xAAhEQABAQgDAQAAAAAAAAAAAAAAAQIUFlOhouHiERIVYv/aAA4EAQACEQMRBAAAPwDDAWguR0AAAAAFJ9Prx0dK+8IYnwYuimitTopor39Prx0dDwg4NtoporU6KaKnhQ+EPCPJEqSq4NCiJuTdqUAis8M8TwofCHhCJUlVwIibk3alqIrPDPHx7O3PhKw63Ot2Kx5n1TI0U0VajoPZ258EOtzrdh5n1TJFaKaKtR1bzPNlcHDNe5OO6E/nhnjbZ4Z4xfM82VwcHcO6Gpzwzxts8M8cfAbocDKAAAAB/9k=",
  ),
  grey: base64(
    "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAA0JCgsKCA0LCgsODg0PEyAVExISEyccHhcgLikxMC4pLSwzOko+MzZGNywtQFdBRkxOUlNSMj5aYVpQYEpRUk//wAALCAAwAEABAREA/8QAGAABAQEBAQAAAAAAAAAAAAAAAAcIAgb/xAAVEAEBAAAAAAAAAAAAAAAAAAAAEf/aAAgBAQAAPwD0ICX0pSqgAldKUqqAJPSlK4pSlX0Bn6lKVoEBnqlKVoUB/9k=",
  ),
};
