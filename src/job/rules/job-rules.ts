import { accent } from "./accent.ts";
import { air, airOfShop } from "./air.ts";
import { cam } from "./cam.ts";
import { certificateWords, certificateWordsOfShop } from "./certificate-words.ts";
import { corners } from "./corners.ts";
import { cylinderKeys } from "./cylinder-keys.ts";
import { datesInOrder } from "./dates-in-order.ts";
import { engineGeometry } from "./engine-geometry.ts";
import { heads } from "./heads.ts";
import { jobOrProduct } from "./job-or-product.ts";
import { layoutCentres } from "./layout-centres.ts";
import { literalTables } from "./literal-tables.ts";
import { meterNeedsAir } from "./meter-needs-air.ts";
import { oneOfTwo } from "./one-of-two.ts";
import { pinchShape } from "./pinch-shape.ts";
import { repeatedStage } from "./repeated-stage.ts";
import { revisionReason } from "./revision-reason.ts";
import type { JobRule, ShopRule } from "./rule.ts";
import { runHasReadings } from "./run-has-readings.ts";
import { seatAngles } from "./seat-angles.ts";
import { setsAlike } from "./sets-alike.ts";
import { springs } from "./springs.ts";
import { stageNames } from "./stage-names.ts";
import { stemUnderThroat } from "./stem-under-throat.ts";
import { throatUnderValve } from "./throat-under-valve.ts";
import { unusedFacts } from "./unused-facts.ts";
import { valveCount } from "./valve-count.ts";
import { valveUnderFixture } from "./valve-under-fixture.ts";

/** What is checked between the keys of a job. Each rule raises its own messages. */
export const JOB_RULES: readonly JobRule[] = [
  jobOrProduct,
  heads,
  revisionReason,
  datesInOrder,
  stageNames,
  repeatedStage,
  literalTables,
  oneOfTwo,
  runHasReadings,
  valveCount,
  seatAngles,
  throatUnderValve,
  stemUnderThroat,
  valveUnderFixture,
  pinchShape,
  corners,
  cylinderKeys,
  layoutCentres,
  cam,
  unusedFacts,
  engineGeometry,
  springs,
  air,
  meterNeedsAir,
  setsAlike,
  certificateWords,
];

/** What is checked in a `shop.yaml`. */
export const SHOP_RULES: readonly ShopRule[] = [accent, airOfShop, certificateWordsOfShop];
