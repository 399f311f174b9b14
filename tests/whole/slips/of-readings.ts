import type { Slip } from "./slip.ts";

const METRIC = "/shop/2026-015.yaml";

/** The readings of the first stage, for slips of a whole table. */
const LIFTS = ["0.100", "0.150", "0.200", "0.250", "0.300", "0.350", "0.400", "0.450"];
const INTAKE = ["58.0", "87.3", "114.4", "138.2", "157.8", "172.4", "181.9", "187.6"];
const EXHAUST = ["49.5", "73.4", "93.5", "108.0", "119.0", "126.3", "130.7", "132.6"];
const rows = (lift: readonly string[], intake: readonly string[], exhaust: readonly string[]) =>
  lift
    .map((one, k) => `      ${one}    ${(intake[k] ?? "").padStart(5)}   ${(exhaust[k] ?? "").padStart(5)}\n`)
    .join("");
const FINISHED = rows(LIFTS, INTAKE, EXHAUST);
const LAST = "      0.300    158.4   119.3\n";
const WHOLE = FINISHED + LAST;

const MM = ["2.5", "3.8", "5.0", "6.4", "7.6", "8.9", "10.2", "11.4"];

/** Slips of the readings, and what looks odd in them. */
export const READINGS: readonly Slip[] = [
  {
    name: "no head",
    harm: ["      lift    intake  exhaust\n      0.100     58.0", "      0.100     58.0"],
    says: "no head",
    cure: ["lift intake exhaust", "      0.100     58.0", "      lift intake exhaust\n      0.100     58.0"],
  },
  {
    name: "a column misspelt",
    harm: ["lift    intake  exhaust\n      0.100     58.0", "lift    intake  exhuast\n      0.100     58.0"],
    says: "`exhuast` is not a column",
  },
  {
    name: "a column by another name",
    harm: ["lift    intake  exhaust\n      0.100     58.0", "lift    inlet  exhaust\n      0.100     58.0"],
    says: "`inlet` is not a column",
  },
  {
    name: "two columns of one name",
    harm: ["lift    intake  exhaust\n      0.100     58.0", "lift    intake  intake\n      0.100     58.0"],
    says: "two columns are named `intake`",
    cure: ["name one of them", "intake  intake", "intake  exhaust"],
  },
  {
    name: "a reading left out",
    harm: ["0.250    138.2   108.0", "0.250    138.2"],
    says: "row `0.250` has 2 values",
    cure: ["write - for a reading that was not taken", "0.250    138.2\n", "0.250    138.2   -\n"],
  },
  {
    name: "a reading too many",
    harm: ["0.250    138.2   108.0", "0.250    138.2   108.0   108.1"],
    says: "row `0.250` has 4 values",
    cure: ["delete what is too much", "   108.1", ""],
  },
  {
    name: "two marks",
    harm: ["157.8   119.0", "157.8!?  119.0"],
    says: "`157.8!?` has more than one mark",
    cure: ["157.8?", "157.8!?", "157.8?"],
  },
  {
    name: "a minus before a reading",
    harm: ["157.8   119.0", "-157.8   119.0"],
    says: "`-157.8` is below zero",
    cure: ["write -", "-157.8", "-"],
  },
  {
    name: "a letter for a digit",
    harm: ["157.8   119.0", "l57.8   119.0"],
    says: "`l57.8` has a letter among its digits",
  },
  {
    name: "an O for a zero",
    harm: ["0.250    138.2   108.0", "0.250    138.2   1O8.0"],
    says: "`1O8.0`",
  },
  {
    name: "a lost point",
    harm: ["138.2   108.0", "1382   108.0"],
    says: "1382",
  },
  {
    name: "swapped digits",
    harm: ["157.8   119.0", "175.8   119.0"],
    says: "175.8 cfm",
    warns: true,
  },
  {
    name: "swapped digits of the exhaust",
    harm: ["157.8   119.0", "157.8   191.0"],
    says: "191.0 cfm",
    warns: true,
  },
  {
    name: "a misread reading",
    harm: ["138.2   108.0", "128.2   108.0"],
    says: "128.2 cfm",
    warns: true,
    cure: ["measure it again", "128.2", "138.2"],
  },
  {
    name: "a lift set wrong",
    harm: ["0.100     58.0    49.5", "0.010     58.0    49.5"],
    says: "Finished at 0.010 in",
    warns: true,
    cure: ["did you mean 0.100?", "0.010 ", "0.100 "],
  },
  {
    name: "a lift typed as its neighbour",
    harm: ["0.250    138.2   108.0", "0.200    138.2   108.0"],
    says: "0.200 in of lift is typed twice, and 0.250 is missing",
    warns: true,
  },
  {
    name: "a lift typed as the next one",
    harm: ["0.250    138.2   108.0", "0.300    138.2   108.0"],
    says: "0.300 in of lift is typed twice, and 0.250 is missing",
    warns: true,
  },
  {
    name: "a lift that falls",
    harm: ["0.250    138.2   108.0", "0.025    138.2   108.0"],
    says: "lift `0.025` is below `0.200`",
  },
  {
    name: "a lift without its point",
    harm: ["0.250    138.2   108.0", "250    138.2   108.0"],
    says: "a lift of 250 in",
  },
  {
    name: "lifts in millimetres under inches",
    harm: [WHOLE, rows(MM, INTAKE, EXHAUST)],
    says: "millimetres under inches",
    cure: ["write lift/mm", "      lift    intake  exhaust\n      2.5", "      lift/mm intake  exhaust\n      2.5"],
  },
  {
    name: "lifts in inches under millimetres",
    file: METRIC,
    harm: [
      "2.0    35.6    29.2    3\n          4.0    70.0    56.8    3\n          6.0    61.2    48.9    4\n          8.0    70.8    55.2    4\n          10.0   74.6",
      "0.080    35.6    29.2    3\n          0.160    70.0    56.8    3\n          0.240    61.2    48.9    4\n          0.315    70.8    55.2    4\n          0.390   74.6",
    ],
    says: "inches under millimetres",
    warns: true,
    cure: ["write lift/in", "          lift  intake", "          lift/in  intake"],
  },
  {
    name: "swapped columns",
    harm: [WHOLE, `${rows(LIFTS, EXHAUST, INTAKE)}      0.300    119.3   158.4\n`],
    says: "through the smaller valve",
    warns: true,
    cure: [
      "swap their names in the table's head",
      "      lift    intake  exhaust\n      0.100     49.5",
      "      lift    exhaust  intake\n      0.100     49.5",
    ],
  },
  {
    name: "a valve that did not move",
    harm: ["0.200    114.4", "0.200     87.3"],
    says: "87.3 cfm",
    warns: true,
    cure: ["did not move", "0.200     87.3", "0.200    114.4"],
  },
  {
    name: "a dial zeroed with the valve open",
    harm: [WHOLE, rows(LIFTS, ["42.0", "71.3", "99.4", "125.2", "147.8", "164.4", "177.9", "185.6"], EXHAUST)],
    says: "not at zero",
    warns: true,
    cure: [
      "dial zero",
      rows(LIFTS, ["42.0", "71.3", "99.4", "125.2", "147.8", "164.4", "177.9", "185.6"], EXHAUST),
      WHOLE,
    ],
  },
  {
    name: "a sweep pasted twice",
    harm: [
      WHOLE,
      rows(LIFTS, ["51.3", "76.6", "99.6", "118.3", "134.0", "143.6", "148.7", "151.1"], EXHAUST) +
        "      0.300    133.2   119.3\n",
    ],
    says: "the same readings as As received",
    warns: true,
    cure: [
      "pasted twice",
      rows(LIFTS, ["51.3", "76.6", "99.6", "118.3", "134.0", "143.6", "148.7", "151.1"], EXHAUST) +
        "      0.300    133.2   119.3\n",
      WHOLE,
    ],
  },
  {
    name: "a percentage over its range",
    file: METRIC,
    harm: ["61.2    48.9", "188    48.9"],
    says: "188 %",
    cure: ["check the reading", "188 ", "61.2 "],
  },
  {
    name: "a wrong range",
    file: METRIC,
    harm: ["48.9    4", "48.9    3"],
    says: "As received, cylinder 2 at 6.0 mm",
    warns: true,
    cure: ["a wrong range", "48.9    3", "48.9    4"],
  },
  {
    name: "a wrong range from a lift up",
    file: METRIC,
    harm: [
      "48.9    4\n          8.0    70.8    55.2    4\n          10.0   74.6    57.4    4",
      "48.9    3\n          8.0    70.8    55.2    3\n          10.0   74.6    57.4    3",
    ],
    says: "As received, cylinder 2 at 6.0 mm",
    warns: true,
    cure: [
      "range",
      "48.9    3\n          8.0    70.8    55.2    3\n          10.0   74.6    57.4    3",
      "48.9    4\n          8.0    70.8    55.2    4\n          10.0   74.6    57.4    4",
    ],
  },
  {
    name: "two sweeps apart",
    harm: [LAST, "      0.300    168.4   119.3\n"],
    says: "168.4 cfm lies",
    warns: true,
    cure: ["measure it again", "168.4", "158.4"],
  },
  {
    name: "a cam that lifts further than was read",
    harm: ["net_lift: 0.420", "net_lift: 0.460"],
    says: "the last reading is at 0.450 in",
    warns: true,
    cure: ["read up to the cam's lift", "0.460", "0.420"],
  },
  {
    name: "a pressure that no bench holds",
    harm: ["test_pressure: 25", "test_pressure: 250"],
    says: "250",
    warns: true,
  },
  {
    name: "a column that the head does not name",
    harm: ["lift    intake  exhaust\n      0.100     58.0", "lift    intake\n      0.100     58.0"],
    says: "each row has 3 values, the head names 2 columns",
  },
  {
    name: "a lift typed twice near the valve's seat",
    harm: ["0.150     87.3", "0.100     87.3"],
    says: "0.100 in of lift is typed twice, and 0.150 is missing",
    warns: true,
  },
  {
    name: "swapped digits that throw a neighbour off its trend",
    harm: ["172.4   126.3", "127.4   126.3"],
    says: "intake at 0.350 in: 127.4 cfm",
    warns: true,
  },
];
