import { rule as handwheelFasterThanAxis } from './handwheel/faster-than-axis/rule.ts';
import { rule as handwheelNoOffPosition } from './handwheel/no-off-position/rule.ts';
import { rule as handwheelSignalKind } from './handwheel/signal-kind/rule.ts';
import { rule as levelCoilWithoutClamp } from './level/coil-without-clamp/rule.ts';
import { rule as levelContactOverloaded } from './level/contact-overloaded/rule.ts';
import { rule as levelNoiseMargin } from './level/noise-margin/rule.ts';
import { rule as levelOutputOverloaded } from './level/output-overloaded/rule.ts';
import { rule as levelOverRating } from './level/over-rating/rule.ts';
import { rule as levelReferenceSpan } from './level/reference-span/rule.ts';
import { rule as levelTooLittle } from './level/too-little/rule.ts';
import { rule as levelUncertain } from './level/uncertain/rule.ts';
import { rule as motionCurrentAboveRated } from './motion/current-above-rated/rule.ts';
import { rule as motionCurrentBelowRated } from './motion/current-below-rated/rule.ts';
import { rule as motionFeedAboveLimit } from './motion/feed-above-limit/rule.ts';
import { rule as motionMicrostepsTooFine } from './motion/microsteps-too-fine/rule.ts';
import { rule as motionScrewBuckles } from './motion/screw-buckles/rule.ts';
import { rule as motionStopBeyondOvertravel } from './motion/stop-beyond-overtravel/rule.ts';
import { rule as motionTorqueScant } from './motion/torque-scant/rule.ts';
import { rule as motionTorqueTooSmall } from './motion/torque-too-small/rule.ts';
import { rule as motionTravelBeyondScrew } from './motion/travel-beyond-screw/rule.ts';
import { rule as motionTwoLeads } from './motion/two-leads/rule.ts';
import { rule as nameDefinedTwice } from './name/defined-twice/rule.ts';
import { rule as nameSettingFinerThanStep } from './name/setting-finer-than-step/rule.ts';
import { rule as nameSettingOutsideSpan } from './name/setting-outside-span/rule.ts';
import { rule as nameSheetNotFound } from './name/sheet-not-found/rule.ts';
import { rule as nameUnknownAxis } from './name/unknown-axis/rule.ts';
import { rule as nameUnknownCircuit } from './name/unknown-circuit/rule.ts';
import { rule as nameUnknownPart } from './name/unknown-part/rule.ts';
import { rule as nameUnknownSetting } from './name/unknown-setting/rule.ts';
import { rule as nameUnknownSwitch } from './name/unknown-switch/rule.ts';
import { rule as nameUnknownTerminal } from './name/unknown-terminal/rule.ts';
import { rule as nameUnusedPart } from './name/unused-part/rule.ts';
import { rule as polarityDirectionTwice } from './polarity/direction-twice/rule.ts';
import { rule as polarityInputAlwaysOn } from './polarity/input-always-on/rule.ts';
import { rule as polarityInputNeverOn } from './polarity/input-never-on/rule.ts';
import { rule as polarityInverted } from './polarity/inverted/rule.ts';
import { rule as polarityOptoReversed } from './polarity/opto-reversed/rule.ts';
import { rule as polarityPairCrossed } from './polarity/pair-crossed/rule.ts';
import { rule as polaritySensorKind } from './polarity/sensor-kind/rule.ts';
import { rule as powerAbove80 } from './power/above-80/rule.ts';
import { rule as powerMainsOnLowVoltage } from './power/mains-on-low-voltage/rule.ts';
import { rule as powerMainsOutside } from './power/mains-outside/rule.ts';
import { rule as powerNearCeiling } from './power/near-ceiling/rule.ts';
import { rule as powerOutsideSpan } from './power/outside-span/rule.ts';
import { rule as powerOverloaded } from './power/overloaded/rule.ts';
import { rule as powerReversed } from './power/reversed/rule.ts';
import { rule as powerRuleOfThumb } from './power/rule-of-thumb/rule.ts';
import { rule as powerSensitiveOnMotorSupply } from './power/sensitive-on-motor-supply/rule.ts';
import { rule as recordBacklash } from './record/backlash/rule.ts';
import { rule as recordCorrection } from './record/correction/rule.ts';
import { rule as recordOlderThanSetting } from './record/older-than-setting/rule.ts';
import { rule as recordStepChanged } from './record/step-changed/rule.ts';
import { rule as recordTooCoarse } from './record/too-coarse/rule.ts';
import { rule as recordUnknownStep } from './record/unknown-step/rule.ts';
import type { Rule } from './rule.ts';
import { rule as safetyBrokenWireNotSeen } from './safety/broken-wire-not-seen/rule.ts';
import { rule as safetyChassisWithoutEarth } from './safety/chassis-without-earth/rule.ts';
import { rule as safetyEmergencyStopCaution } from './safety/emergency-stop-caution/rule.ts';
import { rule as safetyEmergencyStopInputOnly } from './safety/emergency-stop-input-only/rule.ts';
import { rule as safetyFeedbackNotMonitored } from './safety/feedback-not-monitored/rule.ts';
import { rule as safetyOppositeStops } from './safety/opposite-stops/rule.ts';
import { rule as safetyStaysOnWhenBroken } from './safety/stays-on-when-broken/rule.ts';
import { rule as safetyStopNormallyOpen } from './safety/stop-normally-open/rule.ts';
import { rule as safetyStopNotDirectOpening } from './safety/stop-not-direct-opening/rule.ts';
import { rule as settingDiffers } from './setting/differs/rule.ts';
import { rule as settingInputNotInUse } from './setting/input-not-in-use/rule.ts';
import { rule as settingLeftAtDefault } from './setting/left-at-default/rule.ts';
import { rule as settingNotWritten } from './setting/not-written/rule.ts';
import { rule as settingRoundingDrift } from './setting/rounding-drift/rule.ts';
import { rule as settingUnwiredInputInUse } from './setting/unwired-input-in-use/rule.ts';
import { rule as shapeEmptySection } from './shape/empty-section/rule.ts';
import { rule as shapeImpossibleFigure } from './shape/impossible-figure/rule.ts';
import { rule as shapeLink } from './shape/link/rule.ts';
import { rule as shapeMissingKey } from './shape/missing-key/rule.ts';
import { rule as shapeMissingKind } from './shape/missing-kind/rule.ts';
import { rule as shapeMissingValue } from './shape/missing-value/rule.ts';
import { rule as shapeNotAChoice } from './shape/not-a-choice/rule.ts';
import { rule as shapeTooLarge } from './shape/too-large/rule.ts';
import { rule as shapeTwoKinds } from './shape/two-kinds/rule.ts';
import { rule as shapeUnknownKey } from './shape/unknown-key/rule.ts';
import { rule as shapeWrongType } from './shape/wrong-type/rule.ts';
import { rule as silenceUnknownCode } from './silence/unknown-code/rule.ts';
import { rule as silenceUnused } from './silence/unused/rule.ts';
import { rule as spindleAbovePlateSpeed } from './spindle/above-plate-speed/rule.ts';
import { rule as spindleBelowLeastSpeed } from './spindle/below-least-speed/rule.ts';
import { rule as spindleCommandIgnored } from './spindle/command-ignored/rule.ts';
import { rule as spindleCorrection } from './spindle/correction/rule.ts';
import { rule as spindlePlateDisagrees } from './spindle/plate-disagrees/rule.ts';
import { rule as spindleReadingsOff } from './spindle/readings-off/rule.ts';
import { rule as spindleRunNotWired } from './spindle/run-not-wired/rule.ts';
import { rule as spindleWaitTooShort } from './spindle/wait-too-short/rule.ts';
import { rule as timingHoldScant } from './timing/hold-scant/rule.ts';
import { rule as timingHoldTooShort } from './timing/hold-too-short/rule.ts';
import { rule as timingLeadScant } from './timing/lead-scant/rule.ts';
import { rule as timingLeadTooShort } from './timing/lead-too-short/rule.ts';
import { rule as timingOffTimeScant } from './timing/off-time-scant/rule.ts';
import { rule as timingOffTimeTooShort } from './timing/off-time-too-short/rule.ts';
import { rule as timingOnTimeScant } from './timing/on-time-scant/rule.ts';
import { rule as timingOnTimeTooShort } from './timing/on-time-too-short/rule.ts';
import { rule as timingRateAboveDrive } from './timing/rate-above-drive/rule.ts';
import { rule as unitCommaDecimal } from './unit/comma-decimal/rule.ts';
import { rule as unitImplausible } from './unit/implausible/rule.ts';
import { rule as unitMissing } from './unit/missing/rule.ts';
import { rule as unitNotAQuantity } from './unit/not-a-quantity/rule.ts';
import { rule as unitOtherSystem } from './unit/other-system/rule.ts';
import { rule as unitPrefixCase } from './unit/prefix-case/rule.ts';
import { rule as unitSpanUpsideDown } from './unit/span-upside-down/rule.ts';
import { rule as unitUnknown } from './unit/unknown/rule.ts';
import { rule as unitWrongDimension } from './unit/wrong-dimension/rule.ts';
import { rule as wireColour } from './wire/colour/rule.ts';
import { rule as wireDrop } from './wire/drop/rule.ts';
import { rule as wireFuseBelowLoad } from './wire/fuse-below-load/rule.ts';
import { rule as wireFuseTooLarge } from './wire/fuse-too-large/rule.ts';
import { rule as wireGreenYellow } from './wire/green-yellow/rule.ts';
import { rule as wireLengthMissing } from './wire/length-missing/rule.ts';
import { rule as wireMotorWithSignals } from './wire/motor-with-signals/rule.ts';
import { rule as wireNoFuse } from './wire/no-fuse/rule.ts';
import { rule as wireOverCapacity } from './wire/over-capacity/rule.ts';
import { rule as wireScreenBothOrNone } from './wire/screen-both-or-none/rule.ts';
import { rule as wiringCoilChatters } from './wiring/coil-chatters/rule.ts';
import { rule as wiringCrossedSignals } from './wiring/crossed-signals/rule.ts';
import { rule as wiringCrossedSwitches } from './wiring/crossed-switches/rule.ts';
import { rule as wiringFunctionWithoutInput } from './wiring/function-without-input/rule.ts';
import { rule as wiringLinkToItself } from './wiring/link-to-itself/rule.ts';
import { rule as wiringLinkTwice } from './wiring/link-twice/rule.ts';
import { rule as wiringNoReturn } from './wiring/no-return/rule.ts';
import { rule as wiringNotSolved } from './wiring/not-solved/rule.ts';
import { rule as wiringOtherMotor } from './wiring/other-motor/rule.ts';
import { rule as wiringOutputsFight } from './wiring/outputs-fight/rule.ts';
import { rule as wiringSuppliesJoined } from './wiring/supplies-joined/rule.ts';
import { rule as wiringSupplyShorted } from './wiring/supply-shorted/rule.ts';
import { rule as wiringTerminalOverfull } from './wiring/terminal-overfull/rule.ts';
import { rule as wiringTerminalUnconnected } from './wiring/terminal-unconnected/rule.ts';
import { rule as yamlAliasTooLarge } from './yaml/alias-too-large/rule.ts';
import { rule as yamlAliasUnresolved } from './yaml/alias-unresolved/rule.ts';
import { rule as yamlConflictMarkers } from './yaml/conflict-markers/rule.ts';
import { rule as yamlDuplicateKey } from './yaml/duplicate-key/rule.ts';
import { rule as yamlSyntax } from './yaml/syntax/rule.ts';
import { rule as yamlTabIndentation } from './yaml/tab-indentation/rule.ts';
import { rule as yamlTooDeep } from './yaml/too-deep/rule.ts';

/** Every kind of finding, family by family. A new one is one folder and one entry here. */
export const RULES: readonly Rule[] = [
  yamlSyntax,
  yamlDuplicateKey,
  yamlAliasUnresolved,
  yamlAliasTooLarge,
  yamlTabIndentation,
  yamlConflictMarkers,
  yamlTooDeep,
  shapeUnknownKey,
  shapeMissingKey,
  shapeMissingValue,
  shapeWrongType,
  shapeTooLarge,
  shapeNotAChoice,
  shapeMissingKind,
  shapeTwoKinds,
  shapeLink,
  shapeEmptySection,
  shapeImpossibleFigure,
  unitMissing,
  unitUnknown,
  unitWrongDimension,
  unitPrefixCase,
  unitNotAQuantity,
  unitCommaDecimal,
  unitSpanUpsideDown,
  unitImplausible,
  unitOtherSystem,
  nameUnknownPart,
  nameUnknownTerminal,
  nameUnknownSetting,
  nameUnknownCircuit,
  nameUnknownAxis,
  nameUnknownSwitch,
  nameSheetNotFound,
  nameDefinedTwice,
  nameSettingOutsideSpan,
  nameSettingFinerThanStep,
  nameUnusedPart,
  wiringTerminalUnconnected,
  wiringCoilChatters,
  wiringOtherMotor,
  wiringCrossedSignals,
  wiringNotSolved,
  wiringNoReturn,
  wiringFunctionWithoutInput,
  wiringLinkToItself,
  wiringLinkTwice,
  wiringTerminalOverfull,
  wiringSupplyShorted,
  wiringSuppliesJoined,
  wiringOutputsFight,
  wiringCrossedSwitches,
  powerOutsideSpan,
  powerOverloaded,
  powerAbove80,
  powerNearCeiling,
  powerMainsOutside,
  powerRuleOfThumb,
  powerSensitiveOnMotorSupply,
  powerReversed,
  powerMainsOnLowVoltage,
  wireOverCapacity,
  wireDrop,
  wireNoFuse,
  wireFuseTooLarge,
  wireFuseBelowLoad,
  wireColour,
  wireGreenYellow,
  wireScreenBothOrNone,
  wireMotorWithSignals,
  wireLengthMissing,
  polarityInputNeverOn,
  polarityInputAlwaysOn,
  polarityInverted,
  polaritySensorKind,
  polarityOptoReversed,
  polarityPairCrossed,
  polarityDirectionTwice,
  levelOverRating,
  levelTooLittle,
  levelUncertain,
  levelNoiseMargin,
  levelOutputOverloaded,
  levelContactOverloaded,
  levelCoilWithoutClamp,
  levelReferenceSpan,
  timingLeadTooShort,
  timingLeadScant,
  timingHoldTooShort,
  timingHoldScant,
  timingOnTimeTooShort,
  timingOnTimeScant,
  timingOffTimeTooShort,
  timingOffTimeScant,
  timingRateAboveDrive,
  motionFeedAboveLimit,
  motionTorqueTooSmall,
  motionTorqueScant,
  motionTravelBeyondScrew,
  motionTwoLeads,
  motionScrewBuckles,
  motionStopBeyondOvertravel,
  motionCurrentAboveRated,
  motionCurrentBelowRated,
  motionMicrostepsTooFine,
  spindleReadingsOff,
  spindlePlateDisagrees,
  spindleAbovePlateSpeed,
  spindleBelowLeastSpeed,
  spindleCommandIgnored,
  spindleRunNotWired,
  spindleWaitTooShort,
  spindleCorrection,
  handwheelFasterThanAxis,
  handwheelNoOffPosition,
  handwheelSignalKind,
  recordCorrection,
  recordTooCoarse,
  recordStepChanged,
  recordUnknownStep,
  recordBacklash,
  recordOlderThanSetting,
  settingDiffers,
  settingInputNotInUse,
  settingLeftAtDefault,
  settingRoundingDrift,
  settingUnwiredInputInUse,
  settingNotWritten,
  safetyEmergencyStopInputOnly,
  safetyEmergencyStopCaution,
  safetyStopNormallyOpen,
  safetyStopNotDirectOpening,
  safetyFeedbackNotMonitored,
  safetyBrokenWireNotSeen,
  safetyStaysOnWhenBroken,
  safetyChassisWithoutEarth,
  safetyOppositeStops,
  silenceUnknownCode,
  silenceUnused,
];
