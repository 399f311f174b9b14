import { air, airOfShop, meterNeedsAir, setsAlike, testPressureSize } from "./bench.ts";
import { certificateWords, certificateWordsOfShop } from "./certificate-words.ts";
import { chamberSize } from "./chambers.ts";
import { cam, durationsWithUnknownCheckPlace, engineGeometry, engineSizes } from "./engine.ts";
import { valveUnderFixture } from "./fixture.ts";
import { headsOf } from "./heads-of.ts";
import { accent, brandTwice, heads, jobOrProduct, revisionReason } from "./identity.ts";
import { oneOfTwo } from "./one-of-two.ts";
import { corners, pinchShape } from "./port-sections.ts";
import { seatAngles, seatsWithoutAngle, stemUnderThroat, throatUnderValve, valveCount } from "./port-sizes.ts";
import { literalTables, runHasReadings } from "./readings.ts";
import type { JobRule, ShopRule } from "./rule.ts";
import { springRate, springs } from "./springs.ts";
import { cylinderKeys, datesInOrder, layoutCentres, repeatedStage, stageNames, stagesInOrder } from "./stages.ts";
import { valveSize } from "./valve-size.ts";
import { limitsOfShop, valveTrain, valveTrainLimits } from "./valve-train.ts";

/** The checks between the keys of a job. Each rule raises its own messages. */
export const JOB_RULES: readonly JobRule[] = [
  jobOrProduct,
  heads,
  revisionReason,
  datesInOrder,
  stageNames,
  stagesInOrder,
  repeatedStage,
  literalTables,
  oneOfTwo,
  runHasReadings,
  valveCount,
  seatAngles,
  valveSize,
  throatUnderValve,
  stemUnderThroat,
  valveUnderFixture,
  chamberSize,
  pinchShape,
  corners,
  cylinderKeys,
  layoutCentres,
  cam,
  seatsWithoutAngle,
  durationsWithUnknownCheckPlace,
  engineSizes,
  engineGeometry,
  springs,
  springRate,
  headsOf,
  valveTrainLimits,
  valveTrain,
  air,
  testPressureSize,
  meterNeedsAir,
  setsAlike,
  certificateWords,
];

/** The checks of a `shop.yaml`. */
export const SHOP_RULES: readonly ShopRule[] = [accent, brandTwice, airOfShop, certificateWordsOfShop, limitsOfShop];
