import { describedPort, type Row, rowsOf, type Sketch, type StageSketch } from "./model-fixture.ts";

/** Invented heads that no warning may fire on: plausible tables and dimensions, from memory, common practice. */
export const inclinedReceived: readonly Row[] = rowsOf(
  "1 21 18, 2 42 36, 4 85 71, 6 121 98, 8 146 114, 10 158 121, 12 162 123",
);
export const inclinedFinished: readonly Row[] = rowsOf(
  "1 24 21, 2 48 41, 4 97 81, 6 141 111, 8 174 129, 10 193 138, 12 202 141",
);
const fourReceived: readonly Row[] = rowsOf("1 34 27, 2 68 54, 4 132 105, 6 181 140, 8 210 157, 10 220 163");
const fourFinished: readonly Row[] = rowsOf("1 37 29, 2 75 59, 4 147 115, 6 204 155, 8 238 175, 10 255 184");
const singleReceived: readonly Row[] = rowsOf("1 13 10.5, 2 26 21, 3 38 31, 4 48 38.5, 5 55 43, 6 59 45.5, 7 61 46.5");
const singleFinished: readonly Row[] = rowsOf("1 15 11.5, 2 30 23, 3 45 34, 4 58 43, 5 68 49, 6 75 52.5, 7 78 54");
const ironFound: readonly Row[] = rowsOf(
  "0.05 22 18, 0.1 43 35, 0.15 64 51, 0.2 83 65, 0.25 99 76, 0.3 111 84, 0.35 119 88, 0.4 123 90",
);

const inch = (value: number) => value * 25.4;

export const inclined: readonly [StageSketch, StageSketch] = [
  {
    name: "As received",
    intake: describedPort({ valve: 44, stem: 8, throat: 37.5, seatWidth: 1.5, pinch: 920, volume: 104, length: 100 }),
    exhaust: describedPort({ valve: 38, stem: 8, throat: 32.5, seatWidth: 1.8, pinch: 730, volume: 66 }),
    flow: inclinedReceived,
  },
  {
    name: "Finished",
    intake: describedPort({ valve: 46, stem: 8, throat: 40.5, seatWidth: 1.2, pinch: 1080, volume: 121, length: 100 }),
    exhaust: describedPort({ valve: 39, stem: 8, throat: 34, seatWidth: 1.5, pinch: 790, volume: 70 }),
    flow: inclinedFinished,
  },
];
export const fourValve: readonly [StageSketch, StageSketch] = [
  {
    name: "As received",
    intake: describedPort({
      valves: 2,
      valve: 33,
      stem: 5.5,
      throat: 28.5,
      seatWidth: 1.2,
      pinch: 1140,
      volume: 132,
      length: 100,
    }),
    exhaust: describedPort({ valves: 2, valve: 28, stem: 5.5, throat: 24, seatWidth: 1.4, pinch: 830, volume: 66 }),
    flow: fourReceived,
  },
  {
    name: "Finished",
    intake: describedPort({
      valves: 2,
      valve: 34,
      stem: 5.5,
      throat: 30.3,
      seatWidth: 1,
      pinch: 1250,
      volume: 143,
      length: 100,
    }),
    exhaust: describedPort({ valves: 2, valve: 28.5, stem: 5.5, throat: 24.8, seatWidth: 1.2, pinch: 900, volume: 70 }),
    flow: fourFinished,
  },
];
export const single: readonly [StageSketch, StageSketch] = [
  {
    name: "As received",
    intake: describedPort({ valve: 27, stem: 5.5, throat: 23, seatWidth: 1, pinch: 345, volume: 27, length: 65 }),
    exhaust: describedPort({ valve: 23, stem: 5.5, throat: 19.5, seatWidth: 1.2, pinch: 275, volume: 18 }),
    flow: singleReceived,
  },
  {
    name: "Finished",
    intake: describedPort({ valve: 29, stem: 5, throat: 25.5, seatWidth: 0.9, pinch: 420, volume: 32, length: 65 }),
    exhaust: describedPort({ valve: 24, stem: 5, throat: 20.6, seatWidth: 1.1, pinch: 300, volume: 19.5 }),
    flow: singleFinished,
  },
];
export const iron: readonly [StageSketch] = [
  {
    name: "As found",
    intake: describedPort({
      valve: inch(1.75),
      stem: inch(0.343),
      throat: inch(1.46),
      seatWidth: inch(0.07),
      pinch: 1.25 * 645.16,
      volume: 88,
      length: inch(3.9),
    }),
    exhaust: describedPort({
      valve: inch(1.45),
      stem: inch(0.343),
      throat: inch(1.2),
      seatWidth: inch(0.09),
      pinch: 0.95 * 645.16,
      volume: 48,
    }),
    flow: ironFound,
  },
];

export const demoHeads: readonly { readonly name: string; readonly sketch: Sketch }[] = [
  { name: "two-valve inclined", sketch: { lifts: "mm", stages: inclined } },
  { name: "four-valve", sketch: { lifts: "mm", stages: fourValve } },
  { name: "small two-valve single", sketch: { lifts: "mm", stages: single } },
  { name: "old cast iron", sketch: { lifts: "in", stages: iron } },
];
