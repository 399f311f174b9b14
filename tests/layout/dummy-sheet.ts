import type { Drawing, DrawingItem } from "../../src/charts/drawing.ts";
import type { BlockContent, Chart, LineChart, Part, Sheet, SheetRow, TableCell } from "../../src/sheet/content.ts";
import { makeTheme } from "../../src/theme/make-theme.ts";
import type { Paper } from "../../src/theme/theme.ts";

/** A hand-over sheet with every part on it, its figures invented. */
export function dummySheet(
  options: { readonly paper?: Paper["name"]; readonly accent?: string; readonly banner?: string } = {},
): Sheet {
  const { theme } = makeTheme(options);
  return {
    template: "handover",
    documentTitle: "Cylinder head sheet HG-0147",
    author: "Harbour Head Works",
    identifier: "HG-0147 revision 1 figures 0f1e2d3c",
    subject: "Flow and dimensions of one cylinder head, as received and finished",
    language: "en",
    issued: "2026-03-14",
    theme,
    furniture: {
      left: "HG-0147 · revision 1",
      middle: "Relates only to the head stamped K7-2231",
      ...(options.banner === undefined ? {} : { banner: options.banner }),
    },
    rows: [...sideOne(theme), ...sideTwo()],
    onePage: false,
  };
}

const block = (name: string, parts: readonly Part[], split = false, priority = 50): BlockContent => ({
  name,
  parts,
  split,
  priority,
});
const full = (b: BlockContent, newPage = false): SheetRow => ({ cells: [{ block: b, from: 0, span: 6 }], newPage });
const cell = (text: string, more: Omit<TableCell, "text"> = {}): TableCell => ({ text, ...more });

function sideOne(theme: Sheet["theme"]): readonly SheetRow[] {
  return [
    full(
      block("masthead", [
        {
          kind: "masthead",
          name: "Harbour Head Works",
          strapline: "Cylinder heads, flowed and finished by hand",
          lines: [
            { text: "3 Ropewalk Yard, Port Ellary" },
            { text: "+44 20 7946 0147", link: "tel:+442079460147" },
            { text: "bench@harbourheads.example", link: "mailto:bench@harbourheads.example" },
          ],
        },
      ]),
    ),
    full(
      block("title", [
        { kind: "heading", level: 1, text: "Cylinder head, finished and measured" },
        {
          kind: "paragraph",
          style: "quiet",
          text: "HG-0147, revision 1 · issued 14 March 2026 · measured on this part",
        },
      ]),
    ),
    {
      cells: [
        {
          from: 0,
          span: 3,
          block: block("customer", [
            { kind: "heading", level: 2, text: "Customer" },
            {
              kind: "facts",
              rows: [
                { label: "Name", value: "R. Tallow" },
                { label: "Reference", value: "Order 88-12" },
                { label: "Received", value: "2 February 2026" },
                { label: "Measured", value: "10 March 2026" },
              ],
            },
          ]),
        },
        {
          from: 3,
          span: 3,
          block: block("head", [
            { kind: "heading", level: 2, text: "Head" },
            {
              kind: "facts",
              rows: [
                { label: "Head", value: "Merle 2.0 16-valve" },
                { label: "Stamp", value: "K7-2231" },
                { label: "Arrived", value: "Used, one stud broken", note: "cylinder 1 is at the timing end" },
                { label: "Engine", value: "86.0 × 86.0 mm, four cylinders" },
              ],
            },
          ]),
        },
      ],
    },
    full(
      block("summary", [
        {
          kind: "paragraph",
          style: "lead",
          text: "The intake ports were reshaped at the throat and short side and every seat was cut anew. At your cam’s lift of 10.0 mm the intake now flows 12.4 % more than as received, a clear gain over what our bench repeats to. Have the gap between valve and piston checked before it runs.",
        },
      ]),
    ),
    full(
      block("headline", [
        {
          kind: "headline",
          cells: [
            {
              label: "Intake at 10.0 mm",
              number: "246.1",
              unit: "cfm",
              was: "was 218.9",
              verdict: { mark: "up", text: "Clear gain" },
            },
            {
              label: "Exhaust at 9.5 mm",
              number: "171.3",
              unit: "cfm",
              was: "was 170.2",
              verdict: { mark: "level", text: "Within repeatability" },
            },
            {
              label: "Intake, average",
              number: "+9.8",
              unit: "%",
              verdict: { mark: "up", text: "Clear gain" },
              note: "2.0 to 12.0 mm",
            },
            {
              label: "Compression",
              number: "10.8",
              unit: ": 1",
              was: "was 10.4",
              verdict: { mark: "unknown", text: "Calculated" },
              note: "gasket and piston as stated by you",
            },
          ],
        },
      ]),
    ),
    full(
      block("flow-charts", [
        { kind: "heading", level: 2, text: "Flow" },
        {
          kind: "charts",
          height: 190,
          charts: [
            {
              title: "Intake",
              chart: dummyChart(theme, 246),
              alt: "Line chart, intake flow against lift from 0 to 12 mm: finished lies above as received from 3 mm on.",
            },
            {
              title: "Exhaust",
              chart: dummyChart(theme, 171),
              alt: "Line chart, exhaust flow against lift from 0 to 12 mm: both lines lie on each other.",
            },
          ],
          caption:
            "At 28 inH₂O, bare head with radius entry on the intake and a pipe on the exhaust. Lines between readings are a guide for the eye.",
        },
      ]),
    ),
    full(
      block("cautions", [
        {
          kind: "caution",
          signal: "Caution",
          text: "Valve size and seat depth changed. Turn the engine by hand through two full turns and measure valve to piston and valve to valve before it is started.",
        },
        {
          kind: "caution",
          signal: "Note",
          text: "More air may run lean on the old settings. Set fuel and ignition afresh from the safe side.",
        },
      ]),
    ),
    full(
      block("hand-over", [
        {
          kind: "signatures",
          labels: [{ role: "Measured and finished by", name: "J. Marrow" }, { role: "Received by" }, { role: "Date" }],
        },
      ]),
    ),
  ];
}

function sideTwo(): readonly SheetRow[] {
  const lifts = Array.from({ length: 12 }, (_, i) => i + 1);
  const flows = lifts.map((lift): TableCell[] => {
    const before = 26.4 * lift - 0.62 * lift ** 2;
    const after = lift > 8 ? before * 1.124 : before * (1 + lift * 0.0155);
    const change = (100 * (after - before)) / before;
    const mark = lift < 3 ? "level" : "up";
    return [
      cell(lift.toFixed(1), { strong: true }),
      cell((lift / 34).toFixed(3), { quiet: true }),
      cell(before.toFixed(1)),
      cell(after.toFixed(1)),
      cell(lift === 7 ? "–" : `+${change.toFixed(1)}`, { mark }),
      cell((before * 0.72).toFixed(1)),
      cell((before * 0.721).toFixed(1)),
      cell(lift % 3 === 0 ? "−0.4" : "+0.2", { mark: "level" }),
      cell("1.1", { quiet: true }),
    ];
  });
  const [left, right]: readonly [BlockContent, BlockContent] = [
    block("valve-job", [
      { kind: "heading", level: 2, text: "Valve job" },
      {
        kind: "facts",
        rows: [
          { label: "Intake valve", value: "34.0 mm", note: "was 33.0 mm" },
          { label: "Seat cuts", value: "30° / 45° / 60°" },
          { label: "Set up for lift up to", value: "11.5 mm" },
          { label: "Clearance to coil bind", value: "1.2 mm" },
        ],
      },
    ]),
    block("work", [
      { kind: "heading", level: 2, text: "Work done" },
      {
        kind: "list",
        items: [
          { text: "Throats opened to 90 % of valve diameter and blended by hand." },
          { text: "Short side reshaped; guides shortened by 3 mm and tapered." },
          { lead: "Not done:", text: "water jackets were not pressure tested; cam bearings were not measured." },
        ],
      },
    ]),
  ];
  return [
    full(
      block(
        "flow-table",
        [
          { kind: "heading", level: 2, text: "Readings" },
          {
            kind: "facts",
            rows: [
              { label: "Test pressure", value: "28.0 inH₂O" },
              { label: "Leakage", value: "1.8 cfm, taken off each reading" },
              { label: "Ports flowed", value: "2 of 4 intake, 2 of 4 exhaust; three sweeps each" },
            ],
          },
          {
            kind: "table",
            title: "Flow against lift",
            columns: [
              { title: "Lift", unit: "mm", align: "decimal" },
              { title: "L ÷ D", align: "decimal" },
              { title: "As received", unit: "cfm", align: "decimal" },
              { title: "Finished", unit: "cfm", align: "decimal" },
              { title: "Change", unit: "%", align: "decimal" },
              { title: "As received", unit: "cfm", align: "decimal" },
              { title: "Finished", unit: "cfm", align: "decimal" },
              { title: "Change", unit: "%", align: "decimal" },
              { title: "±", unit: "%", align: "decimal" },
            ],
            groups: [
              { text: "", span: 2 },
              { text: "Intake", span: 3 },
              { text: "Exhaust", span: 4 },
            ],
            rows: flows,
            rowHeads: true,
            fifths: true,
            notes: [
              "– reading at 7.0 mm struck out: the valve had not settled.",
              "± is for the change, at 95 %, from three sweeps (Student’s t).",
            ],
          },
        ],
        true,
      ),
      true,
    ),
    {
      cells: [
        { from: 0, span: 3, block: left },
        { from: 3, span: 3, block: right },
      ],
    },
    full(
      block(
        "checks",
        [
          { kind: "heading", level: 2, text: "What we checked" },
          {
            kind: "table",
            columns: [
              { title: "Checked", align: "left", weight: 1 },
              { title: "How", align: "left", weight: 2 },
              { title: "Result", align: "left", weight: 1 },
            ],
            rows: [
              [
                cell("Cracks"),
                cell("Dye penetrant on chambers, seats and spark plug threads"),
                cell("No crack found by dye penetrant"),
              ],
              [cell("Deck"), cell("Straight edge and feelers, six lines"), cell("0.03 mm, as measured")],
              [
                cell("Guides"),
                cell(
                  "Split-ball gauge at three heights, each of sixteen guides, valve stems by micrometer at the same heights",
                ),
                cell("Within 0.02 to 0.05 mm"),
              ],
            ],
            rowHeads: true,
            fifths: false,
            notes: [],
          },
        ],
        true,
      ),
    ),
    full(
      block(
        "dimensions",
        [
          { kind: "heading", level: 2, text: "Dimensions" },
          {
            kind: "table",
            columns: [
              { title: "", align: "left" },
              { title: "As received", unit: "mm", align: "decimal" },
              { title: "Finished", unit: "mm", align: "decimal" },
              { title: "Change", unit: "mm", align: "decimal" },
            ],
            rows: [
              [cell("Intake valve"), cell("33.0"), cell("34.0"), cell("+1.0")],
              [cell("Intake throat"), cell("28.6"), cell("30.6"), cell("+2.0")],
              [cell("Exhaust valve"), cell("29.0"), cell("29.0"), cell("0.0")],
              [cell("Chamber, cm³"), cell("48.25"), cell("47.9"), cell("−0.35")],
            ],
            rowHeads: true,
            fifths: false,
            notes: ["What was not measured again says so."],
          },
        ],
        true,
      ),
    ),
  ];
}

function dummyChart(theme: Sheet["theme"], peak: number): LineChart {
  return {
    kind: "line",
    x: { title: "Lift (mm)", start: 0, end: 12, ticks: [0, 2, 4, 6, 8, 10, 12], decimals: 0 },
    y: { title: "Flow (cfm)", start: 0, end: 300, ticks: [0, 100, 200, 300], decimals: 0 },
    series: [
      {
        name: "As received",
        label: "As received",
        style: theme.series.earlier[0]!,
        curve: [
          [0, 0],
          [6, peak * 0.6],
          [12, peak * 0.9],
        ],
        points: [],
      },
      {
        name: "Finished",
        label: "Finished",
        style: theme.series.latest,
        curve: [
          [0, 0],
          [6, peak * 0.66],
          [12, peak],
        ],
        points: [],
      },
    ],
  };
}

/** A drawing that is no more than a frame, straight lines and their names. */
export function dummyDraw(
  chart: Chart,
  { width, height }: { readonly width: number; readonly height: number },
): Drawing {
  const items: DrawingItem[] = [
    {
      kind: "path",
      role: "axis",
      d: [
        ["M", 30, 5],
        ["L", 30, height - 25],
        ["L", width, height - 25],
      ],
      stroke: { color: "#1b1f23", width: 0.5 },
    },
    {
      kind: "text",
      role: "label",
      text: chart.x.title,
      x: 30,
      y: height - 5,
      size: 8.5,
      weight: "regular",
      color: "#51575d",
    },
    {
      kind: "text",
      role: "label",
      text: chart.y.title,
      x: 10,
      y: height - 25,
      size: 8.5,
      weight: "regular",
      color: "#51575d",
      angle: -90,
    },
  ];
  if (chart.kind === "line")
    for (const { curve, style } of chart.series)
      items.push({
        kind: "path",
        role: "curve",
        d: curve.map(([x, y], i) => [
          i === 0 ? "M" : "L",
          30 + ((x - chart.x.start) / (chart.x.end - chart.x.start)) * (width - 60),
          height - 25 - ((y - chart.y.start) / (chart.y.end - chart.y.start)) * (height - 30),
        ]),
        stroke: { color: style.color, width: style.width, dash: style.dash },
      });
  return { width, height, items };
}
