import type { Span } from "../diagnostics/diagnostic.ts";
import type {
  CubicMetres,
  CubicMetresPerSecond,
  Kelvin,
  Kilograms,
  Metres,
  Newtons,
  NewtonsPerMetre,
  Pascals,
  Radians,
  Ratio,
  Rpm,
  Speed,
  SquareMetres,
  WattsPerFlow,
} from "../units/quantity.ts";

/**
 * A job in SI, with defaults filled in, stages inherited and runs grouped into sets. What the job does not state is absent or
 * undefined. Text for people (customer, work, remarks) is unchanged.
 */
export type Model = {
  readonly identity: Identity;
  readonly shop: Shop;
  readonly units: DisplayUnits;
  readonly reference: { readonly testPressure: Pascals; readonly air: Air };
  readonly report: Report;
  readonly engine?: Engine;
  readonly stages: readonly Stage[];
  readonly compared: readonly ComparedHead[];
  /** Of a job that sets heads of other jobs side by side: the first of them, whose stage is this model's only one. */
  readonly firstHead?: HeadNames;
  /** Heads that a product is compiled from; empty for a job. */
  readonly samples: readonly SampledHead[];
  readonly text: JobText;
};

export type Side = "intake" | "exhaust";
export const SIDES: readonly Side[] = ["intake", "exhaust"];

export type Identity = {
  readonly kind: "job" | "product";
  /** Ticket or part number. */
  readonly number: string;
  readonly title: string;
  readonly issued: string;
  readonly received?: string;
  readonly revision: number | string;
  readonly replaces?: string;
  readonly because?: string;
  readonly draft: boolean;
};

export type Shop = {
  readonly name?: string;
  readonly strapline?: string;
  readonly address: readonly string[];
  readonly phone?: string;
  readonly email?: string;
  readonly web?: string;
  /** Path as written; the bytes come with the project. */
  readonly logo?: string;
  readonly accent?: string;
  readonly masthead?: "rule" | "band" | "plain";
  readonly hero?: "photo" | "outline" | "none";
  readonly font?: "plex" | "source" | "open";
  readonly responsible?: string;
  readonly warranty?: string;
  readonly cautions: readonly string[];
};

/** Display units of the sheet: names of units/table.ts. */
export type DisplayUnits = {
  readonly length: string;
  readonly area: string;
  readonly volume: string;
  readonly flow: string;
  readonly pressure: string;
  readonly temperature: string;
  readonly speed: string;
  readonly force: string;
  readonly power: string;
};

export type Report = {
  /** Lifts at which the sheet compares in sentences. */
  readonly lifts: readonly CompareAt[];
  readonly headlineSet?: string;
  readonly pinchLimit: Speed;
  readonly pinchLimitIsDefault: boolean;
  readonly powerPerFlow?: WattsPerFlow;
  readonly holdBack: readonly string[];
  readonly embed: "none" | "readings" | "figures" | "job";
  readonly strict: boolean;
};
export type CompareAt =
  | { readonly kind: "lift"; readonly lift: Metres }
  | { readonly kind: "low" | "mid" | "high" | "cam" | "peak" };

export type Air = {
  readonly temperature: Kelvin;
  readonly pressure: Pascals;
  readonly relativeHumidity: Ratio;
  /** No humidity was stated. */
  readonly humidityIsDefault?: true;
};

/** One state of the head: as received, finished. */
export type Stage = {
  readonly name: string;
  readonly date?: string;
  readonly by?: string;
  /** Name of the stage that this one repeats. */
  readonly repeats?: string;
  readonly bench: Bench;
  readonly ports: { readonly intake?: Port; readonly exhaust?: Port };
  readonly chambers: readonly { readonly chamber?: number; readonly volume: CubicMetres }[];
  readonly chambersNotRemeasured: boolean;
  readonly deck?: Deck;
  /** Valve by valve, in the order of the table. */
  readonly valveTrain?: readonly ValveTrainRow[];
  readonly vacuumTest?: string;
  readonly layout?: ValveLayout;
  /** In order of appearance; the leading set first. Empty when the stage was measured but not flowed. */
  readonly sets: readonly FlowSet[];
};

/** Dimensions of one port, after inheritance. Areas are per port: all its valves together. */
export type Port = {
  readonly valves: readonly Valve[];
  /** Ports of this side that feed one cylinder. */
  readonly ports: number;
  /** Cylinders that this port feeds. */
  readonly feeds: number;
  readonly seat?: Seat;
  readonly throat?: Metres;
  readonly pinch?: Pinch;
  readonly sections: readonly Section[];
  readonly opening?: RoundedRectangle & { readonly matchedTo?: string };
  readonly gasketWindow?: RoundedRectangle;
  readonly portVolume?: CubicMetres;
  readonly portVolumes: readonly { readonly cylinder: number; readonly volume: CubicMetres }[];
  readonly portLength?: Metres;
  readonly added?: "filler" | "weld";
  /** Keys as in the job file: valve, seat, throat, pinch, sections, opening, port_volume, port_length. */
  readonly notRemeasured: readonly string[];
  /** Those of `notRemeasured` that may no longer hold, since the port was worked on or its flow changed. */
  readonly stale: readonly string[];
  /** Inherited dimensions that no longer hold where the mean flow has clearly changed since the stage given. */
  readonly staleIfChanged?: readonly { readonly keys: readonly string[]; readonly since: Stage }[];
};

export type Valve = {
  readonly head: Metres;
  readonly margin?: Metres;
  readonly backCut?: { readonly angle: Radians; readonly width?: Metres };
  readonly stem?: Metres;
  readonly material?: string;
};

export type Seat = {
  /** From the face of the head: 30° is flatter than 45°. */
  readonly angle: Radians;
  /** Along the face, as a porter measures it. */
  readonly width?: Metres;
  readonly top?: Cut;
  readonly bottom: readonly Cut[];
  /** A radiused throat under the seat, with its radius where that is known. */
  readonly throatRadius?: { readonly radius?: Metres };
  readonly outside?: Metres;
  readonly form?: string;
};

/** A cut beside the seat; the width is along its face. */
export type Cut = { readonly angle: Radians; readonly width?: Metres };

export type RoundedRectangle = { readonly width: Metres; readonly height: Metres; readonly corner: Metres };

export type Pinch = {
  /** Whole area: × count. */
  readonly area: SquareMetres;
  readonly shape?: RoundedRectangle;
  readonly count: number;
  readonly where?: string;
};

/** A cross-section along the centreline, from the manifold face. */
export type Section = {
  readonly at: Metres;
  readonly area: SquareMetres;
  readonly shape?: RoundedRectangle;
  readonly name?: string;
};

type Deck = {
  readonly cut?: Metres;
  readonly cutBefore?: Metres;
  readonly thickness?: Metres;
  readonly flatness?: Metres;
  readonly finish?: Metres;
};

/** What was set and checked of one valve. */
export type ValveTrainRow = {
  readonly cylinder: number;
  readonly side: Side;
  /** Of twin valves. */
  readonly letter: string;
  readonly height?: Metres;
  readonly shim?: Metres;
  readonly tip?: Metres;
  /** Head below the deck, valve shut; negative above it. */
  readonly drop?: Metres;
  readonly guide?: Metres;
  readonly runout?: Metres;
  readonly seal?: Metres;
  readonly vacuum?: Pascals | "held" | "lost";
};

/** The shop's own limits of the valve train. */
export type ValveTrainLimits = {
  readonly alike?: Metres;
  readonly guide?: Metres;
  readonly runout?: Metres;
  readonly seatForce?: readonly [least: Newtons, most: Newtons];
  readonly openForce?: readonly [least: Newtons, most: Newtons];
  readonly coilBind?: Metres;
  readonly retainerToSeal?: Metres;
};

/** Valve centres [x, y] from the bore's centre. */
export type ValveLayout = {
  readonly bore?: Metres;
  readonly intake: readonly (readonly [Metres, Metres])[];
  readonly exhaust: readonly (readonly [Metres, Metres])[];
  readonly angle?: { readonly intake?: Radians; readonly exhaust?: Radians };
};

/** Runs under the same conditions; only these are repeats of each other. */
export type FlowSet = {
  readonly name: string;
  readonly named: boolean;
  readonly bench: Bench;
  readonly runs: readonly Run[];
};

/** One sweep, or one side of it. */
export type Run = {
  readonly cylinder: number;
  /** No cylinder was stated. */
  readonly cylinderIsDefault?: true;
  readonly hand?: string;
  readonly mount: number;
  readonly bench: Bench;
  readonly readings: { readonly intake: readonly Reading[]; readonly exhaust: readonly Reading[] };
};

export type Reading = {
  readonly lift: Metres;
  readonly kind: "good" | "doubtful" | "noisy" | "struck out" | "missing";
  /** As read, at `pressure`; absent when missing. Percent readings are converted to flow. */
  readonly flow?: CubicMetresPerSecond;
  /** Size of the finest last digit typed in its column, as flow [m³/s]. */
  readonly resolution?: CubicMetresPerSecond;
  readonly pressure: Pascals;
  /** Name of the bench's range on which it was read. */
  readonly range?: string;
  readonly reason?: string;
  readonly at?: Span;
  /** For messages: the numbers as typed with their units, and where the lift stands. */
  readonly typed?: { readonly lift: string; readonly flow: string; readonly liftAt: Span };
};

export type Bench = {
  readonly name?: string;
  /** File in which an unnamed bench stands: unnamed benches of one file are one bench. */
  readonly file?: string;
  readonly testPressure: Pascals;
  readonly reads: "flow" | "percent";
  readonly meter: "orifice" | "volumetric" | "mass";
  /** No meter was stated. */
  readonly meterIsDefault?: true;
  readonly leakage?: {
    readonly intake?: CubicMetresPerSecond;
    readonly exhaust?: CubicMetresPerSecond;
    /** Size of the last digit typed. */
    readonly resolution?: { readonly intake?: CubicMetresPerSecond; readonly exhaust?: CubicMetresPerSecond };
    readonly how?: string;
    readonly testPressure: Pascals;
  };
  readonly air?: Air;
  readonly boreFixture?: Metres;
  readonly intakeEntry?: string;
  readonly exhaustPipe?: { readonly diameter?: Metres; readonly length?: Metres };
  /** `exhaust_pipe: none` was stated. */
  readonly noExhaustPipe?: true;
  readonly attached: { readonly intake?: string; readonly exhaust?: string };
  /** ± at k = 2, as a ratio. */
  readonly accuracy?: Ratio;
  readonly repeatability?:
    | { readonly kind: "range"; readonly spread: Ratio; readonly of: number }
    | { readonly kind: "expanded"; readonly value: Ratio };
  readonly remount?: Ratio;
  readonly liftSetting: Metres;
  readonly liftSettingIsDefault: boolean;
  readonly resolution?: CubicMetresPerSecond;
  readonly checkPlate?: {
    readonly nominal: CubicMetresPerSecond;
    readonly before?: CubicMetresPerSecond;
    readonly after?: CubicMetresPerSecond;
  };
  readonly checked?: string;
  readonly against?: string;
};

/** As stated by the customer. */
export type Engine = {
  readonly name?: string;
  readonly cylinders?: number;
  readonly bore?: Metres;
  readonly stroke?: Metres;
  readonly rodLength?: Metres;
  readonly gasket?:
    | { readonly kind: "volume"; readonly volume: CubicMetres }
    | { readonly kind: "ring"; readonly bore: Metres; readonly compressed: Metres };
  /** Volume added to the clearance: a dish is positive, a dome negative. Deck height: below the deck positive. */
  readonly piston?: { readonly dish?: CubicMetres; readonly belowDeck?: Metres };
  readonly rpm?: { readonly from: Rpm; readonly to: Rpm };
  readonly cams: { readonly intake?: Cam; readonly exhaust?: Cam };
};

export type Cam = {
  /** At the valve, lash taken off. */
  readonly netLift: Metres;
  /** Angle over which lift is at least `at`; crank degrees as an angle. */
  readonly duration?: Radians;
  /** Valve lift at which the duration is stated [m], referred to the valve. */
  readonly at?: Metres;
  readonly of?: "valve" | "follower";
  /** Measured: crank angle and valve lift, ascending. */
  readonly profile?: readonly { readonly angle: Radians; readonly lift: Metres }[];
  readonly lobeSeparation?: Radians;
  readonly centre?: Radians;
};

/** What a sheet may call a head: `known` only where its customer is the sheet's own. */
export type HeadNames = {
  readonly label: string;
  readonly known?: { readonly number?: string; readonly stamped?: string; readonly date?: string };
};

/** Another of the shop's heads, shown under a label, without its customer, ticket or casting stamp. */
type ComparedHead = HeadNames & {
  readonly stage: Stage;
  /** What its own job keeps off paper. */
  readonly holdBack?: readonly string[];
};
export type SampledHead = { readonly stage: Stage; readonly springs?: Springs };

/** Text and facts that no figure depends on. */
export type JobText = {
  readonly customer?: {
    readonly name: string;
    readonly email?: string;
    readonly phone?: string;
    readonly address: readonly string[];
    readonly reference?: string;
  };
  readonly heads: readonly Head[];
  /** Facts shared by all heads, or those of the only one. */
  readonly head: {
    readonly name?: string;
    readonly casting?: string;
    readonly stamped?: string;
    readonly material?: string;
    readonly condition?: string;
    readonly numbering?: string;
  };
  readonly product?: {
    readonly part: string;
    readonly name: string;
    readonly revision?: string;
    readonly validFrom?: string;
    readonly price?: string;
    readonly fits: readonly string[];
    readonly included: readonly string[];
    readonly photo?: string;
    /** One sentence in the shop's own words. */
    readonly line?: string;
    readonly notIncluded: readonly string[];
  };
  readonly work: readonly { readonly area: string; readonly items: readonly string[] }[];
  readonly notDone: readonly string[];
  readonly checks: readonly {
    readonly check: string;
    readonly method?: string;
    readonly result?: string;
    /** As typed, for display. */
    readonly value?: string;
    readonly limit?: string;
  }[];
  readonly alsoMeasured: readonly {
    readonly what: string;
    readonly values: readonly { readonly label: string; readonly value: string }[];
    readonly how?: string;
  }[];
  readonly parts: readonly { readonly part: string; readonly quantity?: string; readonly note?: string }[];
  readonly springs?: Springs;
  /** Those of each side, where they differ by side. */
  readonly springsBySide?: Readonly<Record<Side, Springs>>;
  readonly guides?: {
    readonly material?: string;
    readonly clearance?: { readonly intake?: Metres; readonly exhaust?: Metres };
  };
  readonly valveTrainLimits: ValveTrainLimits;
  readonly agreed: readonly string[];
  /** The porter's own judgement, apart from the results. */
  readonly opinion?: string;
  readonly assembly: readonly { readonly what: string; readonly value: string }[];
  readonly delivered?: "bare" | "assembled" | "checking springs fitted";
  readonly photos: readonly Photo[];
  readonly remarks?: string;
  readonly cautions: readonly string[];
};

export type Photo = {
  readonly file: string;
  readonly caption?: string;
  readonly as?: "hero" | "detail" | "before" | "after";
  /** Shares of its width and height: stays in the middle where it is cropped. */
  readonly focus?: readonly [number, number];
};

export type Head = {
  readonly id: string;
  readonly stamped?: string;
  readonly cylinders: readonly number[];
  readonly name?: string;
  readonly casting?: string;
};

export type Springs = {
  readonly part?: string;
  readonly rate?: NewtonsPerMetre;
  readonly installedHeight?: Metres;
  readonly seatForce?: Newtons;
  readonly openForce?: Newtons;
  readonly openAt?: Metres;
  readonly coilBind?: Metres;
  readonly retainerToSeal?: Metres;
  /** Largest valve lift that the shop set them up for. */
  readonly setUpFor?: Metres;
  readonly mass?: Kilograms;
};
