/** The list of checks, in the order in which findings of one place are shown. */
import { allowUnused } from "./allow-unused.ts";
import { batteryShort } from "./battery-short.ts";
import { cannotPlan } from "./cannot-plan.ts";
import { codeClash } from "./code-clash.ts";
import { codeIsInstaller } from "./code-is-installer.ts";
import { codeLength } from "./code-length.ts";
import { codeMissing } from "./code-missing.ts";
import { codeShadowed } from "./code-shadowed.ts";
import { contactOverload } from "./contact-overload.ts";
import { doorUnit } from "./door-unit.ts";
import { exitCaution } from "./exit-caution.ts";
import { factoryCode } from "./factory-code.ts";
import { fedTwice } from "./fed-twice.ts";
import { fittedOtherModel } from "./fitted-other-model.ts";
import { fittedUnknownKeypad } from "./fitted-unknown-keypad.ts";
import { guessOdds } from "./guess-odds.ts";
import { holderIdle } from "./holder-idle.ts";
import { installerLength } from "./installer-length.ts";
import { installerReused } from "./installer-reused.ts";
import { lockVolts } from "./lock-volts.ts";
import { memoryFull } from "./memory-full.ts";
import { mergeConflict } from "./merge-conflict.ts";
import { modelAmbiguous } from "./model-ambiguous.ts";
import { modelField } from "./model-field.ts";
import { modelIncomplete } from "./model-incomplete.ts";
import { nameTwice } from "./name-twice.ts";
import { nameUnknown } from "./name-unknown.ts";
import { nearCodes } from "./near-codes.ts";
import { pairMode } from "./pair-mode.ts";
import { recordPlain } from "./record-plain.ts";
import { relayRange } from "./relay-range.ts";
import { relayTwice } from "./relay-twice.ts";
import { relayUnreachable } from "./relay-unreachable.ts";
import { releaseLong } from "./release-long.ts";
import { releaseShort } from "./release-short.ts";
import { sealedShut } from "./sealed-shut.ts";
import { settingRange } from "./setting-range.ts";
import { slotClash } from "./slot-clash.ts";
import { slotKind } from "./slot-kind.ts";
import { slotNumber } from "./slot-number.ts";
import { slotRange } from "./slot-range.ts";
import { supplyOverload } from "./supply-overload.ts";
import { syntax } from "./syntax.ts";
import { tagLost } from "./tag-lost.ts";
import { tagMissing } from "./tag-missing.ts";
import { tagRange } from "./tag-range.ts";
import { tagTwice } from "./tag-twice.ts";
import { tooMany } from "./too-many.ts";
import { untilPassed } from "./until-passed.ts";
import { untilSoon } from "./until-soon.ts";
import { useCycle } from "./use-cycle.ts";
import { useMissing } from "./use-missing.ts";
import { weakCode } from "./weak-code.ts";

export const checks = [
  syntax,
  mergeConflict,
  useMissing,
  useCycle,
  nameUnknown,
  nameTwice,
  slotClash,
  slotRange,
  slotKind,
  slotNumber,
  relayRange,
  relayTwice,
  relayUnreachable,
  settingRange,
  codeLength,
  installerLength,
  codeMissing,
  tagMissing,
  tagLost,
  codeClash,
  codeShadowed,
  codeIsInstaller,
  factoryCode,
  installerReused,
  weakCode,
  nearCodes,
  guessOdds,
  tagRange,
  tagTwice,
  untilPassed,
  untilSoon,
  holderIdle,
  pairMode,
  memoryFull,
  releaseShort,
  releaseLong,
  doorUnit,
  lockVolts,
  contactOverload,
  supplyOverload,
  batteryShort,
  fedTwice,
  exitCaution,
  fittedUnknownKeypad,
  fittedOtherModel,
  cannotPlan,
  sealedShut,
  recordPlain,
  modelAmbiguous,
  modelField,
  modelIncomplete,
  allowUnused,
  tooMany,
] as const;

/** The codes of all checks: what marks, allowances and `mullion explain` may name. */
export type Code = (typeof checks)[number]["code"];
