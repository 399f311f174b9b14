import { View as Box, Document, Font, Page, Path, renderToBuffer, Svg, Text } from "@react-pdf/renderer";
import { createElement as h } from "react";
import type { Drawing } from "../../src/charts/drawing.ts";
import type { Plain } from "./plain.ts";
import { pathOf } from "./svg-path.ts";

const regular = "node_modules/@expo-google-fonts/ibm-plex-sans/400Regular/IBMPlexSans_400Regular.ttf";

let registered = false;

/** A page by react-pdf, its charts as the paths of the same drawings. */
export function reactPage({ texts, table, charts }: Plain): Promise<Buffer> {
  if (!registered) Font.register({ family: "Plex", src: regular });
  registered = true;
  const chart = ({ width, height, items }: Drawing, key: number) =>
    h(
      Svg,
      { key, width: 170, height: (170 * height) / width, viewBox: `0 0 ${width} ${height}` },
      ...items.map((item, i) =>
        item.kind === "path"
          ? h(Path, { key: i, d: pathOf(item.d), fill: item.fill ?? "none", stroke: item.stroke?.color ?? "none" })
          : h(Text, { key: i, x: item.x, y: item.y, style: { fontSize: item.size } }, item.text),
      ),
    );
  const page = h(
    Page,
    { size: "A4", style: { fontFamily: "Plex", fontSize: 7, padding: 30 } },
    ...texts.map((text, i) => h(Text, { key: `t${i}` }, text)),
    h(Box, { key: "charts", style: { flexDirection: "row" } }, ...charts.map(chart)),
    ...table.map((row, i) =>
      h(
        Box,
        { key: `r${i}`, style: { flexDirection: "row" } },
        ...row.map((text, c) => h(Text, { key: c, style: { width: 80 } }, text)),
      ),
    ),
  );
  return renderToBuffer(h(Document, { language: "en" }, page));
}
