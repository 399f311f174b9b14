import pdfmake from "pdfmake";
import * as vega from "vega";
import type { Plain } from "./plain.ts";

const FAMILY = "node_modules/@expo-google-fonts/ibm-plex-sans";
const normal = `${FAMILY}/400Regular/IBMPlexSans_400Regular.ttf`;
const bold = `${FAMILY}/700Bold/IBMPlexSans_700Bold.ttf`;

/** Vega specs of a size and a number of points like the page's charts, one after another: line, line, bars. */
function chartSpecs(count: number): vega.Spec[] {
  return Array.from({ length: count }, (_, i): vega.Spec => {
    const points = Array.from({ length: 48 }, (_, at) => ({ x: at / 96, y: 20 + 100 * Math.sin(at / 30), s: at % 2 }));
    const bars = i === count - 1;
    return {
      width: 220,
      height: 90,
      data: [{ name: "t", values: bars ? points.slice(0, 12) : points }],
      scales: [
        { name: "x", type: bars ? "band" : "linear", domain: { data: "t", field: "x" }, range: "width" },
        { name: "y", type: "linear", zero: true, domain: { data: "t", field: "y" }, range: "height" },
      ],
      axes: [
        { scale: "x", orient: "bottom", title: "Lift" },
        { scale: "y", orient: "left", title: "Flow", grid: true },
      ],
      marks: bars
        ? [
            {
              type: "rect",
              from: { data: "t" },
              encode: {
                update: {
                  x: { scale: "x", field: "x" },
                  width: { scale: "x", band: 1, offset: -2 },
                  y: { scale: "y", field: "y" },
                  y2: { scale: "y", value: 0 },
                  fill: { value: "#1f4e5f" },
                },
              },
            },
          ]
        : [
            {
              type: "group",
              from: { facet: { name: "f", data: "t", groupby: "s" } },
              marks: [
                {
                  type: "line",
                  from: { data: "f" },
                  encode: {
                    update: {
                      x: { scale: "x", field: "x" },
                      y: { scale: "y", field: "y" },
                      stroke: { value: "#1f4e5f" },
                    },
                  },
                },
              ],
            },
          ],
    };
  });
}

/** A page by pdfmake, its charts drawn by Vega as SVG. */
export async function pdfmakePage({ texts, table, charts }: Plain): Promise<Buffer> {
  const svgs = await Promise.all(
    chartSpecs(charts.length).map((spec) => new vega.View(vega.parse(spec), { renderer: "none" }).toSVG()),
  );
  // It says so on every page otherwise; nothing is fetched.
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy(() => true);
  pdfmake.addFonts({ Plex: { normal, bold } });
  return pdfmake
    .createPdf({
      pageSize: "A4",
      pageMargins: 30,
      tagged: true,
      lang: "en",
      pdfVersion: "1.7",
      defaultStyle: { font: "Plex", fontSize: 7 },
      content: [
        ...texts.map((text) => ({ text })),
        { columns: svgs.map((svg) => ({ svg, width: 170 })) },
        { table: { headerRows: 1, body: table.map((row) => row.map((text) => ({ text }))) } },
      ],
    })
    .getBuffer();
}
