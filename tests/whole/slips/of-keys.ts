import type { Slip } from "./slip.ts";

const METRIC = "/shop/2026-015.yaml";
const PRODUCT = "/shop/qh-100.yaml";

/** Slips of keys, words, dates and what the file refers to. */
export const KEYS: readonly Slip[] = [
  { name: "a key misspelt", harm: ["port_length: 3.95", "port_lenght: 3.95"], says: "unknown key `port_lenght`" },
  { name: "a needed key misspelt", harm: ["issued:", "isued:"], says: "unknown key `isued`" },
  {
    name: "no date",
    harm: ["issued: 2026-03-18\n", ""],
    says: "missing `issued`",
    cure: ["issued: 2026-03-18", 'job: "2026-014"\n', 'job: "2026-014"\nissued: 2026-03-18\n'],
  },
  {
    name: "a date day first",
    harm: ["received: 2026-02-20", "received: 20.02.2026"],
    says: "`20.02.2026` is not a date",
  },
  {
    name: "a date without zeros",
    harm: ["received: 2026-02-20", "received: 2026-2-20"],
    says: "`2026-2-20` is not a date",
  },
  {
    name: "a day that does not exist",
    harm: ["received: 2026-02-20", "received: 2026-02-30"],
    says: "does not exist",
    cure: ["2026-03-18", "2026-02-30", "2026-02-20"],
  },
  {
    name: "a head received after it was issued",
    harm: ["received: 2026-02-20", "received: 2026-04-20"],
    says: "later than `issued`",
    warns: true,
    cure: ["check both dates", "2026-04-20", "2026-02-20"],
  },
  {
    name: "a customer without `name:`",
    harm: ["customer: { name: H. Ashgrove, phone: 555 0142 }", "customer: H. Ashgrove"],
    says: "`customer` must be a map of keys",
    cure: ["write customer: { name: H. Ashgrove }", "customer: H. Ashgrove", "customer: { name: H. Ashgrove }"],
  },
  {
    name: "no sheet",
    harm: ["sheet: [ handover, engine ]", "sheet: []"],
    says: "`sheet` is empty",
    cure: ["write sheet: [ handover, attachment ]", "sheet: []", "sheet: [ handover, attachment ]"],
  },
  {
    name: "a sheet misspelt",
    harm: ["sheet: [ handover, engine ]", "sheet: handovr"],
    says: "there is no template `handovr`",
  },
  {
    name: "a sheet of a list misspelt",
    harm: ["sheet: [ handover, engine ]", "sheet: [ handover, enigne ]"],
    says: "there is no template `enigne`",
  },
  {
    name: "a sheet of a product for a job",
    harm: ["sheet: [ handover, engine ]", "sheet: catalog"],
    says: "there is no template `catalog`",
    cure: ["did you mean `catalogue`?", "sheet: catalog", "sheet: handover"],
  },
  {
    name: "a word that is none",
    harm: ["may_compare: yes", "may_compare: true"],
    says: "`true` is not one of yes, no, samples only",
    cure: ["yes", "may_compare: true", "may_compare: yes"],
  },
  {
    name: "a key in the wrong place",
    harm: ["received: 2026-02-20", "received: 2026-02-20\nbore_fixture: 3.450"],
    says: "unknown key `bore_fixture`",
    cure: ["it belongs under `bench`", "\nbore_fixture: 3.450", ""],
  },
  {
    name: "a unit misspelt under `units`",
    harm: ["length: in,", "length: inhces,"],
    says: "`inhces` is not a unit of a length",
  },
  {
    name: "no units",
    harm: ["units: { length: in, area: in2, volume: cc, flow: cfm, pressure: inH2O, temperature: degF }\n", ""],
    says: "bare numbers have no unit here",
    cure: [
      "write units: { length: in, volume: cc, flow: cfm, pressure: inH2O, temperature: degF }",
      "head: {",
      "units: { length: in, volume: cc, flow: cfm, pressure: inH2O, temperature: degF }\nhead: {",
    ],
  },
  {
    name: "no test pressure",
    harm: ["  test_pressure: 25\n", ""],
    says: "the test pressure of these readings is not stated",
    cure: ["write `bench: { test_pressure: 28 inH2O }`", "bench:\n", "bench:\n  test_pressure: 25\n"],
  },
  {
    name: "a number of a part in words",
    harm: ["cylinders: 4", "cylinders: four"],
    says: "`four` is not a whole number",
  },
  {
    name: "two stages of one name",
    harm: ["- name: Finished", "- name: As received"],
    says: "two stages are called `As received`",
    cure: ["another name", "  - name: As received\n    date: 2026-03-12", "  - name: Finished\n    date: 2026-03-12"],
  },
  {
    name: "a stage misspelt",
    harm: ["    date: 2026-03-12", "    date: 2026-03-12\n    repeats: As recieved"],
    says: "there is no stage `As recieved`",
    cure: ["did you mean `As received`?", "\n    repeats: As recieved", ""],
  },
  {
    name: "stages newest first, by date",
    harm: ["    date: 2026-03-12", "    date: 2026-02-12"],
    says: "`Finished` is dated before `As received`",
    cure: ["check", "2026-02-12", "2026-03-12"],
  },
  {
    name: "a baseline below what it precedes",
    file: METRIC,
    harm: ["stages:\n", "stages:\n  - name: Finished\n"],
    says: "`As received` stands below `Finished`",
    cure: ["move it above `Finished`", "  - name: Finished\n", "", "compare:", "  - name: Finished\ncompare:"],
  },
  {
    name: "a photo that is not there",
    harm: ["photos/chamber.png", "photos/chambre.png"],
    says: "there is no photo `photos/chambre.png`",
  },
  {
    name: "a photo outside the shop",
    harm: ["file: photos/chamber.png", "file: ../chamber.png"],
    says: "leaves the shop's folder",
    cure: ["keep it in the folder of shop.yaml", "../chamber.png", "photos/chamber.png"],
  },
  {
    name: "a readings file that is not there",
    file: METRIC,
    harm: ["bench/1.csv", "bench/l.csv"],
    says: "there is no readings file `bench/l.csv`",
  },
  {
    name: "a compared stage misspelt",
    file: METRIC,
    harm: ["stage: As received, label", "stage: As recieved, label"],
    says: "has no stage `As recieved`",
  },
  {
    name: "a job that names itself",
    file: METRIC,
    harm: ["{ job: 2026-012.yaml", "{ job: 2026-015.yaml"],
    says: "a job cannot name itself",
    cure: [
      "its own stages are compared anyway",
      "compare: [ { job: 2026-015.yaml, stage: As received, label: Last month's } ]\n",
      "",
    ],
  },
  {
    name: "a compared job that does not allow it",
    file: "/shop/2026-012.yaml",
    harm: ["may_compare: yes\n", ""],
    says: "may not be drawn by other jobs",
    cure: ["write `may_compare: yes` in that job", "issued: 2026-03-02\n", "issued: 2026-03-02\nmay_compare: yes\n"],
  },
  {
    name: "a sample that is not there",
    file: PRODUCT,
    harm: ["[ 2026-014.yaml ]", "[ 2026-041.yaml ]"],
    says: "there is no job file `2026-041.yaml`",
  },
  {
    name: "a raised revision without a reason",
    harm: ["received: 2026-02-20", "received: 2026-02-20\nrevision: 2"],
    says: "revision 2 needs `replaces` and `because`",
    cure: [
      "write `replaces:` with what this sheet replaces, and `because:` with why",
      "revision: 2",
      "revision: 2\nreplaces: revision 1\nbecause: a slip",
    ],
  },
  {
    name: "a bare lift of a cam",
    harm: ["net_lift: 0.420", "lift: 0.420"],
    says: "`lift` of a cam can mean two things",
    cure: ["write `net_lift`", "lift: 0.420", "net_lift: 0.420"],
  },
  {
    name: "chambers without numbers",
    harm: ["{ 1: 42.9, 2: 42.8, 3: 42.9, 4: 42.7 }", "[ 42.9, 42.8, 42.9, 42.7 ]"],
    says: "`chambers` must be a map of keys",
    cure: ["{ 1: 43, 2: 43.4 }", "[ 42.9, 42.8, 42.9, 42.7 ]", "{ 1: 42.9, 2: 42.8, 3: 42.9, 4: 42.7 }"],
  },
  {
    name: "a certificate word",
    harm: ["Run it with", "Calibrated. Run it with"],
    says: "`Calibrated`",
    warns: true,
    cure: ["say what was done", "Calibrated. Run", "Run"],
  },
];
