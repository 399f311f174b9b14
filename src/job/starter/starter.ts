/** The facts of a starter job; the date comes from the caller. */
export type StarterFacts = {
  readonly number: string;
  readonly issued: string;
  /** Path or address of the JSON Schema, for editors that complete keys. */
  readonly schema?: string;
};

const schemaComment = (schema: string | undefined) =>
  schema === undefined ? "" : `# yaml-language-server: $schema=${schema}\n`;

/** A commented customer's job with the short set of keys: valid as it is, so that `check` passes before the first reading. */
export const starterJob = ({
  number,
  issued,
  schema,
}: StarterFacts): string => `${schemaComment(schema)}# A job. Replace what stands here; delete what you do not need. Nearly every key is optional.
job: ${JSON.stringify(number)}             # ticket number; names the PDF
issued: ${issued}           # the date on the sheet
draft: true                  # printed across the sheet; delete this line when it goes to the customer
customer: { name: Name of the customer }
head: { name: What you call this head, stamped: Mark on it }

# Units of bare numbers; leave out what shop.yaml says. A number may always carry its own: 42 mm, 1.654 in.
units: { length: in, area: in2, volume: cc, flow: cfm, pressure: inH2O, temperature: degF }
bench: { test_pressure: 28 inH2O }   # what the readings below were taken at; belongs in shop.yaml

stages:                       # oldest first: one is enough, two make a before and after
  - name: As received
    # valve: head diameter · stem · throat: smallest diameter under the seat · seat width: along the face
    intake:  { valve: 1.654, stem: 0.315, throat: 1.400, seat: { angle: 45 deg, width: 0.060 } }
    exhaust: { valve: 1.378, stem: 0.315, throat: 1.160, seat: { angle: 45 deg, width: 0.075 } }
    # -  not taken · 118? doubtful, drawn open · ~118 struck out · 118! noisy. A reason may follow after a #
    flow: |
      lift    intake  exhaust
      0.100    40.1     33.0
      0.200    78.4     63.1
      0.300   111.5     84.6
      0.400   133.8     97.2
      0.500   146.3    103.4
  - name: Finished            # a dimension not stated here counts as "not re-measured"
    intake: { throat: 1.430 }
    flow: |
      lift    intake  exhaust
      0.100    42.0     33.2
      0.200    83.6     63.4
      0.300   120.2     84.9
      0.400   144.9     97.0
      0.500   158.1    103.1

work:
  Intake ports: [ Bowls opened and blended to the seat ]
not_done: [ Guides not replaced ]
`;

/** A commented product; it is valid once the samples it names exist. */
export const starterProduct = ({
  number,
  issued,
  schema,
}: StarterFacts): string => `${schemaComment(schema)}# A product: a head that the shop sells again and again. Its page is compiled from the jobs under \`samples\`, never typed.
product:
  part: ${JSON.stringify(number)}           # names the PDF
  name: What you call this head
  revision: A
  valid_from: ${issued}
  price: on request
  fits: [ What it fits ]
  included: [ Valves, Springs ]
  not_included: [ Gaskets ]
issued: ${issued}
draft: true                   # printed across the page; delete this line when it is handed out
sheet: catalogue
samples: [ 2026-014.yaml ]    # heads measured so far; each of them says \`may_compare\` yes or samples only
`;
