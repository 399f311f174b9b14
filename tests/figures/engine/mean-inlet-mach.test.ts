import { describe, expect, test } from "vitest";
import { computeFigures } from "../../../src/figures/compute-figures.ts";
import { camOpenPeriod, meanInletMach } from "../../../src/figures/engine/mean-inlet-mach.ts";
import type { Cam } from "../../../src/model/model.ts";
import { metres, radians, ratio } from "../../../src/units/quantity.ts";
import { degrees } from "../model-fixture.ts";
import { statedModel } from "../stated-model.ts";

const cosine: Cam = { netLift: metres(0.0095), duration: degrees(250), at: metres(0.001) };
const profile = [0, 0.001, 0.009, 0.009, 0.001, 0].map((lift, k) => ({ angle: degrees(50 * k), lift: metres(lift) }));

/** Engine figures of the last stage with another intake cam. */
function engineWith(intake: Cam) {
  const model = statedModel();
  const engine = { ...model.engine!, cams: { ...model.engine!.cams, intake } };
  return computeFigures({ ...model, engine }).stages.at(-1)!.engine!;
}

describe("the open period of a cam", () => {
  test("a profile's, from lift 0 to lift 0", () => {
    const shut = [{ angle: degrees(-90), lift: metres(0) }, ...profile, { angle: degrees(400), lift: metres(0) }];
    expect(camOpenPeriod({ netLift: metres(0.009), profile })).toBeCloseTo(degrees(250), 12);
    expect(camOpenPeriod({ netLift: metres(0.009), profile: shut })).toBeCloseTo(degrees(250), 12);
  });
  test("a raised cosine's is longer than its duration; at half its lift it is twice that", () => {
    expect(camOpenPeriod(cosine)).toBeGreaterThan(degrees(250));
    expect(camOpenPeriod({ netLift: metres(0.01), duration: radians(3), at: metres(0.005) })).toBeCloseTo(6, 12);
  });
  test("not known without duration, check lift, or with a valve that stays shut", () => {
    expect(camOpenPeriod({ netLift: metres(0.01) })).toBeUndefined();
    expect(camOpenPeriod({ netLift: metres(0.01), duration: radians(4) })).toBeUndefined();
    expect(camOpenPeriod({ ...cosine, at: metres(0.0095) })).toBeUndefined();
    const shut = profile.map(({ angle }) => ({ angle, lift: metres(0) }));
    expect(camOpenPeriod({ netLift: metres(0.01), profile: shut })).toBeUndefined();
  });
});

describe("mean inlet Mach number", () => {
  test("times the open period in half turns it is the inlet Mach index", () => {
    expect(meanInletMach(ratio(0.5), radians(5))).toBeCloseTo(0.314159, 6);
    for (const cam of [cosine, { netLift: metres(0.009), profile }]) {
      const { inlet_mach_index: index, mean_inlet_mach: mean } = engineWith(cam);
      expect(mean).toHaveLength(index.length);
      const turns = camOpenPeriod(cam)! / Math.PI;
      for (const [k, { rpm, m }] of mean!.entries()) {
        expect(rpm).toBe(index[k]!.rpm);
        expect(m * turns).toBeCloseTo(index[k]!.z, 12);
      }
    }
  });
  test("grows with engine speed, in proportion", () => {
    const mean = engineWith(cosine).mean_inlet_mach!;
    for (const { rpm, m } of mean) expect(m / rpm).toBeCloseTo(mean[0]!.m / mean[0]!.rpm, 12);
    expect(mean.at(-1)!.m).toBeGreaterThan(mean[0]!.m);
  });
  test("the speed at which it reaches 0.40 gives 0.40 back", () => {
    const { mean_inlet_mach: mean, mean_inlet_mach_rpm: speed } = engineWith(cosine);
    expect((mean![0]!.m * speed!) / mean![0]!.rpm).toBeCloseTo(0.4, 9);
  });
  test("a longer cam of equal lift reaches 0.40 at a higher speed; the index does not tell the two apart", () => {
    const [short, long] = [engineWith(cosine), engineWith({ ...cosine, duration: degrees(275) })];
    expect(long.mean_inlet_mach_rpm! / short.mean_inlet_mach_rpm!).toBeCloseTo(1.1, 9);
    expect(long.z_limit_rpm).toBe(short.z_limit_rpm);
  });
  test("absent without a duration", () => {
    const engine = engineWith({ netLift: metres(0.0095) });
    expect(engine.z_limit_rpm).toBeGreaterThan(0);
    expect(engine.mean_inlet_mach).toBeUndefined();
    expect(engine.mean_inlet_mach_rpm).toBeUndefined();
  });
});
