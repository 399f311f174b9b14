import { createRequire } from "node:module";

const { jStat }: { readonly jStat: { readonly studentt: { readonly inv: (p: number, dof: number) => number } } } =
  createRequire(import.meta.url)("jstat");

/** What a shop states of its bench: ± at k = 2, as ratios; the setting of lifts in the unit of the lifts. */
export type WitnessBench = {
  readonly accuracy: number;
  readonly repeatability?: number;
  readonly remount?: number;
  readonly liftSetting: number;
  readonly resolution: number;
};
/** Readings of one stage: mounts, their sweeps, a flow a lift. */
export type WitnessStage = readonly (readonly (readonly number[])[])[];
export type WitnessJob = {
  readonly lifts: readonly number[];
  readonly bench: WitnessBench;
  readonly stages: readonly [WitnessStage, WitnessStage];
};
/** One result with its budget; `parts` are shares of u². */
export type Witnessed = {
  readonly value: number;
  readonly u: number;
  readonly dof: number;
  readonly expanded: number;
  /** At the level of one of as many lifts as are compared. */
  readonly joint: number;
  readonly parts: Readonly<Record<string, number>>;
};

const CONFIDENCE = 0.954499736103642;
const ALLOWANCE = 0.01;

/** An independent error: how it moves each mean flow, those of the first stage first, when it is one standard uncertainty. */
type ErrorColumn = { readonly part: string; readonly estimate: string; readonly dof: number; readonly moves: number[] };

/**
 * The change of the mean and of each lift with its ±, by plain matrices (the registry has no well-kept library for
 * uncertainty that could stand witness): a column for each independent error, J Jᵀ as the
 * covariance of the mean flows, gradients of the results by differences, Student's t of jStat. Only what the design says is
 * used, no code of the program (JCGM 100:2008, 5.2 and annex G).
 */
export function witness(job: WitnessJob): { readonly mean: Witnessed; readonly lifts: readonly Witnessed[] } {
  const { lifts, stages } = job;
  const flows = stages.flatMap((stage) =>
    lifts.map((_, k) => average(stage.flatMap((mount) => mount.map((sweep) => sweep[k]!)))),
  );
  const columns = errorColumns(job, flows);
  const half = lifts.length;
  const meanChange = (all: readonly number[]) => meanOf(lifts, all.slice(half)) / meanOf(lifts, all.slice(0, half)) - 1;
  return {
    mean: propagated(meanChange, flows, columns, half),
    lifts: lifts.map((_, k) => propagated((all) => all[half + k]! - all[k]!, flows, columns, half)),
  };
}

function errorColumns({ lifts, bench, stages }: WitnessJob, flows: readonly number[]): ErrorColumn[] {
  const columns: ErrorColumn[] = [];
  const half = lifts.length;
  const stated = Number.POSITIVE_INFINITY;
  const add = (part: string, estimate: string, dof: number, move: (k: number, stage: number, at: number) => number) =>
    columns.push({ part, estimate, dof, moves: flows.map((_, at) => move(at % half, Math.floor(at / half), at)) });
  const repeats = repeatabilityOf(stages, bench);
  const remounting = remountingOf(stages, bench);
  const slopes = [0, 1].flatMap((stage) =>
    pchip([0, ...lifts], [0, ...flows.slice(stage * half, stage * half + half)]).slice(1),
  );
  add("accuracy", "accuracy", stated, (_, __, at) => (bench.accuracy / 2) * flows[at]!);
  flows.forEach((flow, own) => {
    const stage = stages[Math.floor(own / half)]!;
    const n = stage.reduce((sum, mount) => sum + mount.length, 0);
    add("repeats", "repeats", repeats.dof, (_, __, at) => (at === own ? (repeats.s * flow) / Math.sqrt(n) : 0));
    add("resolution", "resolution", stated, (_, __, at) => (at === own ? bench.resolution / Math.sqrt(12) : 0));
  });
  stages.forEach((mounts, stage) => {
    const n = mounts.reduce((sum, mount) => sum + mount.length, 0);
    for (const mount of mounts) {
      const share = mount.length / n;
      const here = (mine: number, moved: number) => (mine === stage ? share * moved : 0);
      add("remounting", "remounting", remounting.dof, (_, mine, at) => here(mine, remounting.s * flows[at]!));
      add("lift_setting", "shared", stated, (_, mine, at) => here(mine, (slopes[at]! * bench.liftSetting) / 2));
      lifts.forEach((_, k) => {
        add("lift_setting", "own", stated, (one, mine, at) =>
          here(mine, one === k ? (slopes[at]! * bench.liftSetting) / 2 : 0),
        );
      });
    }
  });
  return columns;
}

function repeatabilityOf(stages: readonly WitnessStage[], { repeatability }: WitnessBench): { s: number; dof: number } {
  const groups = stages.flat().flatMap((mount) => mount[0]!.map((_, k) => mount.map((sweep) => sweep[k]!)));
  const squares = groups.flatMap((group) => group.map((flow) => (flow / average(group) - 1) ** 2));
  const dof = groups.reduce((sum, group) => sum + group.length - 1, 0);
  if (dof >= 2) return { s: Math.sqrt(total(squares) / dof), dof };
  if (repeatability !== undefined) return { s: repeatability / 2, dof: Number.POSITIVE_INFINITY };
  const left = stages.flatMap((stage) => {
    const rows = distances(stage);
    return rows.flatMap((row) => row.map((one) => (one - average(row)) ** 2));
  });
  const own = stages.reduce((sum, stage) => sum + (stage.length - 1) * (stage[0]![0]!.length - 1), 0);
  return { s: Math.sqrt(total(left) / own), dof: own };
}

function remountingOf(stages: readonly WitnessStage[], { remount }: WitnessBench): { s: number; dof: number } {
  const squares = stages.flatMap((stage) => distances(stage).map((row) => (average(row) - 1) ** 2));
  const dof = stages.reduce((sum, stage) => sum + stage.length - 1, 0);
  const own = dof === 0 ? 0 : Math.sqrt(total(squares) / dof);
  if (dof >= 3) return { s: own, dof };
  return { s: remount === undefined ? Math.max(ALLOWANCE, own) : remount / 2, dof: Number.POSITIVE_INFINITY };
}

/** Flow of each mount ÷ mean of the mounts, lift by lift. */
function distances(stage: WitnessStage): number[][] {
  const means = stage.map((mount) => mount[0]!.map((_, k) => average(mount.map((sweep) => sweep[k]!))));
  return means.map((row) => row.map((flow, k) => flow / average(means.map((one) => one[k]!))));
}

function propagated(
  f: (flows: readonly number[]) => number,
  flows: readonly number[],
  columns: readonly ErrorColumn[],
  lifts: number,
): Witnessed {
  const step = 1e-4;
  const gradient = flows.map((flow, at) => {
    const moved = (by: number) => f(flows.with(at, flow + by));
    return (moved(-2 * step) - 8 * moved(-step) + 8 * moved(step) - moved(2 * step)) / (12 * step);
  });
  const variance = (chosen: readonly ErrorColumn[]) =>
    total(chosen.map(({ moves }) => total(moves.map((move, at) => move * gradient[at]!)) ** 2));
  const of = (name: string) => columns.filter(({ part, estimate }) => part === name || estimate === name);
  const names = ["accuracy", "repeats", "remounting", "resolution"];
  const shares: Record<string, number> = Object.fromEntries(names.map((name) => [name, variance(of(name))]));
  shares.lift_setting = Math.max(variance(of("shared")), variance(of("own")));
  const whole = total(Object.values(shares));
  const inverse = total(names.map((name) => shares[name]! ** 2 / of(name)[0]!.dof));
  const dof = inverse === 0 ? Number.POSITIVE_INFINITY : whole ** 2 / inverse;
  const u = Math.sqrt(whole);
  const t = (level: number) => jStat.studentt.inv(0.5 + level / 2, Math.min(dof, 1e6));
  return {
    value: f(flows),
    u,
    dof,
    expanded: t(CONFIDENCE) * u,
    joint: t(1 - (1 - CONFIDENCE) / lifts) * u,
    parts: Object.fromEntries(Object.entries(shares).map(([name, square]) => [name, square / whole])),
  };
}

/** Mean over the lifts read, of the monotone piecewise cubic through the shut valve (Fritsch & Butland 1984). */
function meanOf(lifts: readonly number[], flows: readonly number[]): number {
  const [x, y] = [
    [0, ...lifts],
    [0, ...flows],
  ];
  const d = pchip(x, y);
  let area = 0;
  for (let k = 1; k + 1 < x.length; k++) {
    const h = x[k + 1]! - x[k]!;
    area += (h * (y[k]! + y[k + 1]!)) / 2 + (h * h * (d[k]! - d[k + 1]!)) / 12;
  }
  return area / (lifts[lifts.length - 1]! - lifts[0]!);
}

/** Slopes: weighted harmonic means inside, three-point formula of SLATEC's PCHIM at the ends. */
function pchip(x: readonly number[], y: readonly number[]): number[] {
  const h = x.slice(1).map((right, k) => right - x[k]!);
  const delta = h.map((width, k) => (y[k + 1]! - y[k]!) / width);
  const end = (h0: number, h1: number, d0: number, d1: number) => {
    const slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
    if (Math.sign(slope) !== Math.sign(d0)) return 0;
    return Math.sign(d0) !== Math.sign(d1) && Math.abs(slope) > 3 * Math.abs(d0) ? 3 * d0 : slope;
  };
  const inside = delta.slice(1).map((right, k) => {
    const left = delta[k]!;
    if (left * right <= 0) return 0;
    const [w1, w2] = [2 * h[k + 1]! + h[k]!, h[k + 1]! + 2 * h[k]!];
    return (w1 + w2) / (w1 / left + w2 / right);
  });
  const n = delta.length - 1;
  return [end(h[0]!, h[1]!, delta[0]!, delta[1]!), ...inside, end(h[n]!, h[n - 1]!, delta[n]!, delta[n - 1]!)];
}

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
const average = (values: readonly number[]): number => total(values) / values.length;
