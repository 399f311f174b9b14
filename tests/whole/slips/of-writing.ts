import type { Slip } from "./slip.ts";

const METRIC = "/shop/2026-015.yaml";
const PRODUCT = "/shop/qh-100.yaml";

/** Slips of typing the file itself: blanks, quotes, brackets, commas, colons. */
export const WRITING: readonly Slip[] = [
  {
    name: "no blank after a colon",
    harm: ["      throat: 1.470", "      throat:1.470"],
    says: "a blank is missing after the colon",
  },
  {
    name: "no blank after a colon in brackets",
    harm: ["stem: 0.315, throat: 1.270", "stem: 0.315, throat:1.270"],
    says: "`throat:1.270`",
  },
  {
    name: "a colon forgotten in brackets",
    harm: ["stem: 0.315, throat: 1.270", "stem: 0.315, throat 1.270"],
    says: "`throat 1.270`",
  },
  {
    name: "a colon in a text",
    harm: ["remarks: Run it", "remarks: Note: run it"],
    says: "a second `key: value` begins on the same line",
  },
  {
    name: "a colon in a text of a list",
    harm: ["not_done: [ Guides not replaced ]", "not_done: [ Guides: not replaced ]"],
    says: "the colon in this text makes a key of `Guides`",
    cure: ['"Guides: not replaced"', "Guides: not replaced", '"Guides: not replaced"'],
  },
  {
    name: "a comma in a sentence of a list",
    harm: ["[ Guides not replaced ]", "[ Guides not replaced, as agreed ]"],
    says: "the comma makes two entries",
    warns: true,
    cure: ['"Guides not replaced, as agreed"', "Guides not replaced, as agreed", '"Guides not replaced, as agreed"'],
  },
  {
    name: "a comma in what a product fits",
    file: PRODUCT,
    harm: ["[ Launch engine ]", "[ Launch engine, from 1998 on ]"],
    says: "the comma makes two entries",
    warns: true,
    cure: ['"Launch engine, from 1998 on"', "Launch engine, from 1998 on", '"Launch engine, from 1998 on"'],
  },
  {
    name: "a comma before a year in what a product fits",
    file: PRODUCT,
    harm: ["[ Launch engine ]", "[ Launch engine, 1998 on ]"],
    says: "the comma makes two entries",
    warns: true,
    cure: ['"Launch engine, 1998 on"', "Launch engine, 1998 on", '"Launch engine, 1998 on"'],
  },
  {
    name: "a number behind a comma in a text in brackets",
    harm: ["stamped: 4471-B", "stamped: 4471-B, 4472-B"],
    says: "`4472-B`",
    cure: ['"4471-B, 4472-B"', "4471-B, 4472-B", '"4471-B, 4472-B"'],
  },
  {
    name: "a decimal comma",
    harm: ["      throat: 1.470", "      throat: 1,470"],
    says: "`1,470` has a comma in the number",
  },
  {
    name: "a decimal comma in brackets",
    harm: ["throat: 1.270", "throat: 1,270"],
    says: "`1,270` has a comma in the number",
  },
  {
    name: "a decimal comma with a unit in brackets",
    harm: ["throat: 1.270", "throat: 32,3 mm"],
    says: "`32,3` has a comma in the number",
  },
  {
    name: "decimal commas at every number of a line in brackets",
    harm: ["valve: 1.490, stem: 0.315, throat: 1.270", "valve: 1,490, stem: 0,315, throat: 1,270"],
    says: "`1,490` has a comma in the number",
    cure: ["write 1.490", "valve: 1,490, stem: 0,315, throat: 1,270", "valve: 1.490, stem: 0.315, throat: 1.270"],
  },
  {
    name: "decimal commas in a list",
    harm: ["lifts: [ 0.200, 0.400", "lifts: [ 0,200, 0,400"],
    says: "`0,200` has a comma in the number",
    cure: ["write 0.200", "0,200, 0,400", "0.200, 0.400"],
  },
  {
    name: "decimal commas in a table",
    harm: [
      "0.100     51.3    43.6\n      0.150     76.6    64.4",
      "0,100     51,3    43,6\n      0,150     76,6    64,4",
    ],
    says: "`0,100` has a comma in the number",
    cure: [
      "write 0.100",
      "0,100     51,3    43,6\n      0,150     76,6    64,4",
      "0.100     51.3    43.6\n      0.150     76.6    64.4",
    ],
  },
  {
    name: "a table whose columns are parted by commas",
    harm: ["0.200     99.6    82.3\n      0.250    118.3    95.5", "0.200, 99.6, 82.3\n      0.250, 118.3, 95.5"],
    says: "commas part the columns",
    cure: [
      "write 0.200 99.6 82.3",
      "0.200, 99.6, 82.3\n      0.250, 118.3, 95.5",
      "0.200 99.6 82.3\n      0.250 118.3 95.5",
    ],
  },
  {
    name: "a table pasted as CSV",
    harm: ["0.200     99.6    82.3\n      0.250    118.3    95.5", "0.200,99.6,82.3\n      0.250,118.3,95.5"],
    says: "commas part the columns",
    cure: [
      "write 0.200 99.6 82.3",
      "0.200,99.6,82.3\n      0.250,118.3,95.5",
      "0.200 99.6 82.3\n      0.250 118.3 95.5",
    ],
  },
  {
    name: "a head parted by commas",
    harm: ["lift    intake  exhaust\n      0.100     51.3", "lift, intake, exhaust\n      0.100     51.3"],
    says: "commas part the columns",
    cure: ["write lift intake exhaust", "lift, intake, exhaust", "lift intake exhaust"],
  },
  {
    name: "curly quotes around a text",
    harm: ['job: "2026-014"', "job: “2026-014”"],
    says: "curly quotes",
  },
  {
    name: "curly quotes around a text with a comma in brackets",
    harm: ["caption: Chamber 1 as it left", "caption: “Chamber 1, as it left”"],
    says: "curly quotes",
  },
  {
    name: "curly quotes around a text with a colon",
    harm: ["remarks: Run it", "remarks: “Note: run it"],
    says: "curly quotes",
  },
  {
    name: "a quote not closed",
    harm: ['"2026-014"', '"2026-014'],
    says: "has no closing",
    cure: ['write the missing "', '"2026-014', '"2026-014"'],
  },
  {
    name: "a bracket not closed",
    harm: ["{ name: Two-valve alloy four, stamped: 4471-B }", "{ name: Two-valve alloy four, stamped: 4471-B"],
    says: "`{` is not closed",
    cure: ["write the missing `}`", "stamped: 4471-B", "stamped: 4471-B }"],
  },
  {
    name: "a tab in front of a key",
    harm: ["      throat: 1.470", "\tthroat: 1.470"],
    says: "tab",
    cure: ["blanks", "\tthroat: 1.470", "      throat: 1.470"],
  },
  {
    name: "one blank too few before a key",
    harm: ["    date: 2026-02-23", "   date: 2026-02-23"],
    says: "indented",
    cure: ["same column", "   date: 2026-02-23", "    date: 2026-02-23"],
  },
  {
    name: "one blank too few before a row of a table",
    harm: ["      0.200     99.6", "    0.200     99.6"],
    says: "the readings table is not indented under `flow:`",
    cure: ["indent the table under flow:", "    0.200     99.6", "      0.200     99.6"],
  },
  {
    name: "one blank too few between two values of a row",
    harm: ["0.250    118.3    95.5", "0.250118.3    95.5"],
    says: "`0.250118.3` looks like two numbers",
    cure: ["write 0.250 118.3", "0.250118.3", "0.250 118.3"],
  },
  {
    name: "one blank too few between two readings of a row",
    harm: ["118.3    95.5", "118.395.5"],
    says: "`118.395.5` looks like two numbers",
    cure: ["write 118.3 95.5", "118.395.5", "118.3 95.5"],
  },
  {
    name: "no blank after a dash",
    harm: ["  - name: Finished", "  -name: Finished"],
    says: "a blank is missing after the dash",
    cure: ["write - name: Finished", "-name: Finished", "- name: Finished"],
  },
  {
    name: "no bar after `flow:`",
    harm: [
      "    flow: |\n      lift    intake  exhaust\n      0.100     58.0",
      "    flow:\n      lift    intake  exhaust\n      0.100     58.0",
    ],
    says: "the table under `flow` has run together into one line",
    cure: ["write `flow: |`", "    flow:\n", "    flow: |\n"],
  },
  {
    name: "a hash in a text",
    harm: ["remarks: Run it with the short pipe.", "remarks: Cracked at #3 cylinder"],
    says: "the rest of the line is lost",
    warns: true,
    cure: ["put the whole text in quotes", "Cracked at #3 cylinder", '"Cracked at #3 cylinder"'],
  },
  {
    name: "a colour without quotes",
    file: "/shop/shop.yaml",
    harm: [
      'accent: "#1F4E5F", address: [ 4 Slipway, Portnew ] }',
      "accent: #1F4E5F\n  , address: [ 4 Slipway, Portnew ] }",
    ],
    says: "the value is lost",
    warns: true,
    cure: ['"#1F4E5F"', "#1F4E5F\n", '"#1F4E5F"\n'],
  },
  {
    name: "a key pasted twice",
    harm: ["received: 2026-02-20", "received: 2026-02-20\nreceived: 2026-02-20"],
    says: "`received` stands here and in line 3",
    cure: ["keep one of the two", "received: 2026-02-20\nreceived: 2026-02-20", "received: 2026-02-20"],
  },
  {
    name: "a YAML tag",
    harm: ["received: 2026-02-20", "received: !!str 2026-02-20"],
    says: "`!!str`",
    cure: ["quotes", "!!str 2026-02-20", "2026-02-20"],
  },
  {
    name: "a list on the line of its key",
    harm: ["not_done: [ Guides not replaced ]", "not_done: - Guides not replaced"],
    says: "a list cannot begin on the line of its key",
    cure: ["[ … ]", "- Guides not replaced", "[ Guides not replaced ]"],
  },
  {
    name: "decimal commas in a readings file parted by commas",
    file: "/shop/bench/1.csv",
    harm: ["6.0;61.0;48.8;4", "6,0;61.0;48.8;4"],
    says: "`6,0` has a comma in the number",
  },
  {
    name: "a decimal comma in a range",
    file: METRIC,
    harm: ['"4": { intake: 80,', '"4": { intake: 80,5,'],
    says: "`80,5` has a comma in the number",
  },
  {
    name: "a colon in a text in brackets",
    harm: ["head: { name: Two-valve alloy four,", "head: { name: Two-valve: alloy four,"],
    says: "a text with a colon wants quotes",
  },
  {
    name: "a curly quote that is never closed, in brackets",
    harm: ["customer: { name: H. Ashgrove, phone: 555 0142 }", "customer: { phone: 555 0142, name: “H. Ashgrove }"],
    says: "curly quotes",
  },
  {
    name: "the dash of a stage two columns to the left",
    harm: ["  - name: Finished\n", "- name: Finished\n"],
    says: "this line is indented unlike the lines it belongs to",
    cure: ["begin it in the same column as the `-` above it, with 2 blanks", "- name: Finished", "  - name: Finished"],
  },
];
