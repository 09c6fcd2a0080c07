// What one cord's readings mean under an item's terms: its state, whether it counts against the lot, and why.

import { compareDecimals } from '../../kit/decimal.ts'
import type { CordState, InspectionResult, LookedAt, Parameter } from '../../terms/cord.ts'
import type { DecisionRule } from '../../terms/item.ts'

/** Margins are plain decimals in dB as the tester gave them, signed, above the cord limit positive; absent where there is none. */
export type CordReading = {
  crosstalkMargin: string | undefined
  returnLossMargin: string | undefined
  wireMap: InspectionResult
  visual: InspectionResult
}

/** Accuracies are plain decimals, ± dB at the limit. */
export type ConformityTerms = { marginalPolicy: DecisionRule; crosstalkAccuracy: string; returnLossAccuracy: string }

/** What is not clean about a cord; margins and accuracies as they were given. */
export type Finding =
  | { kind: 'fault'; inspection: LookedAt }
  | { kind: 'no-reading'; parameter: Parameter }
  | { kind: 'short'; parameter: Parameter; margin: string }
  | { kind: 'within-accuracy'; parameter: Parameter; margin: string; accuracy: string; rule: DecisionRule }

export type Conformity = { state: CordState; nonconforming: boolean; findings: Finding[] }

/**
 * Judges a cord by its worst finding.
 *
 * A margin below 0 dB does not conform, also within the accuracy; from 0 up to but not including the accuracy it is
 * marginal, which strict counts as nonconforming and lenient as conforming. The digits are judged as they were given:
 * −0.04 does not conform, though it prints as 0.0 with one decimal. No reading is not a conforming reading, and a
 * failed wire map or visual needs no margins.
 *
 * @returns the state, whether the cord counts against the acceptance number, and every finding that is not clean
 * @throws RangeError where a margin or an accuracy is no plain decimal
 *
 * The rules of the item are the buyer's and stand in the contract: common practice, no source.
 *
 * @example a crosstalk margin of 0.7 dB under ±1.5 dB, all else clear, strict: marginal, nonconforming
 */
export function assessConformity(reading: CordReading, terms: ConformityTerms): Conformity {
  const { crosstalkMargin, returnLossMargin, wireMap, visual } = reading
  const { crosstalkAccuracy, returnLossAccuracy, marginalPolicy: rule } = terms
  const needed = wireMap === 'in-order' && visual === 'in-order'
  const findings = [
    ...inspected('wire-map', wireMap),
    ...inspected('visual', visual),
    ...measured('crosstalk', crosstalkMargin, { accuracy: crosstalkAccuracy, rule, needed }),
    ...measured('return-loss', returnLossMargin, { accuracy: returnLossAccuracy, rule, needed }),
  ]
  const state = worst(findings)
  const nonconforming = state === 'does-not-conform' || (state === 'marginal' && rule === 'strict')
  return { state, nonconforming, findings }
}

function worst(findings: Finding[]): CordState {
  if (findings.some(({ kind }) => kind !== 'within-accuracy')) return 'does-not-conform'
  return findings.length > 0 ? 'marginal' : 'conforms'
}

function inspected(inspection: LookedAt, found: InspectionResult): Finding[] {
  return found === 'at-fault' ? [{ kind: 'fault', inspection }] : []
}

function measured(
  parameter: Parameter,
  margin: string | undefined,
  { accuracy, rule, needed }: { accuracy: string; rule: DecisionRule; needed: boolean },
): Finding[] {
  if (margin === undefined) return needed ? [{ kind: 'no-reading', parameter }] : []
  if (compareDecimals(margin, '0') < 0) return [{ kind: 'short', parameter, margin }]
  if (compareDecimals(margin, accuracy) >= 0) return []
  return [{ kind: 'within-accuracy', parameter, margin, accuracy, rule }]
}
