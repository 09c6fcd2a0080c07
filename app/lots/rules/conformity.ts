// What one cord's readings mean under an item's terms: its state, whether it counts against the lot, and why.

import { compareDecimals } from '../../kit/decimal.ts'
import type { CordState, InspectionResult } from '../../terms/cord.ts'
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

export type Conformity = { state: CordState; nonconforming: boolean; reasons: string[] }

type Finding = { state: CordState; reason: string }

/**
 * Judges a cord by its worst finding.
 *
 * A margin below 0 dB does not conform, also within the accuracy; from 0 up to but not including the accuracy it is
 * marginal, which strict counts as nonconforming and lenient as conforming. The digits are judged as they were given:
 * −0.04 does not conform, though it prints as 0.0 with one decimal. No reading is not a conforming reading, and a
 * failed wire map or visual needs no margins.
 *
 * @returns the state, whether the cord counts against the acceptance number, and one sentence a finding that is not clean
 * @throws RangeError where a margin or an accuracy is no plain decimal
 *
 * The rules of the item are the buyer's and stand in the contract: common practice, no source.
 *
 * @example a crosstalk margin of 0.7 dB under ±1.5 dB, all else clear, strict: marginal, nonconforming
 */
export function assessConformity(reading: CordReading, terms: ConformityTerms): Conformity {
  const atFault = reading.wireMap === 'at-fault' || reading.visual === 'at-fault'
  const findings = [
    ...inspected('The wire map', reading.wireMap),
    ...inspected('The visual inspection', reading.visual),
    ...measured('Crosstalk', reading.crosstalkMargin, terms.crosstalkAccuracy, terms.marginalPolicy, atFault),
    ...measured('Return loss', reading.returnLossMargin, terms.returnLossAccuracy, terms.marginalPolicy, atFault),
  ]
  const state = worst(findings)
  return {
    state,
    nonconforming: state === 'does-not-conform' || (state === 'marginal' && terms.marginalPolicy === 'strict'),
    reasons: findings.map((finding) => finding.reason),
  }
}

function worst(findings: Finding[]): CordState {
  if (findings.some((finding) => finding.state === 'does-not-conform')) return 'does-not-conform'
  return findings.length > 0 ? 'marginal' : 'conforms'
}

function inspected(what: string, inspection: InspectionResult): Finding[] {
  return inspection === 'at-fault' ? [{ state: 'does-not-conform', reason: `${what} is at fault.` }] : []
}

function measured(
  what: string,
  margin: string | undefined,
  accuracy: string,
  policy: DecisionRule,
  atFault: boolean,
): Finding[] {
  if (margin === undefined)
    return atFault
      ? []
      : [{ state: 'does-not-conform', reason: `${what} has no reading, and no reading is not a conforming one.` }]
  if (compareDecimals(margin, '0') < 0)
    return [{ state: 'does-not-conform', reason: `${what} is ${margin.replace(/^-/, '')} dB short of the limit.` }]
  if (compareDecimals(margin, accuracy) >= 0) return []
  const counted = policy === 'strict' ? 'does not conform' : 'conforms'
  return [
    {
      state: 'marginal',
      reason: `${what} is ${margin.replace(/^-/, '')} dB above the limit, within the tester’s ±${accuracy} dB: marginal, which this item counts as a cord that ${counted}.`,
    },
  ]
}
