// A tester that misses nonconforming units and flags conforming ones: from the truth to what is seen, and back.

import { clopperPearsonInterval, type Interval, type SampleEvidence } from '../bounds/fraction.ts'
import { probability } from '../check.ts'

/** Share of nonconforming units that pass (missed), and of conforming ones that are flagged (false alarms). */
export type TesterErrors = { missed: number; falseAlarms: number }

/** What testing every unit of a lot does; all are shares from 0 to 1. */
export type Screening = {
  /** Units flagged, of all. */
  flagged: number
  /** Nonconforming units, of those flagged; 0 where none is. */
  rightlyFlagged: number
  /** Nonconforming units that pass, of all. */
  escaping: number
  /** Nonconforming units, of those that pass; 0 where none does. */
  outgoing: number
}

/**
 * What is expected when every unit is tested once by a tester that errs.
 *
 * @param fraction true fraction nonconforming, 0 to 1
 * @param errors missed and falseAlarms, 0 to 1 each
 * @throws RangeError that names the argument out of range
 *
 * Source: the law of total probability, and Bayes' rule.
 *
 * @example screeningOf(0.03, { missed: 0.1, falseAlarms: 0.01 }) // 3.67 % flagged, 73.6 % of them rightly; 0.311 % goes out
 */
export function screeningOf(fraction: number, { missed, falseAlarms }: TesterErrors): Screening {
  probability('fraction', fraction)
  probability('missed', missed)
  probability('falseAlarms', falseAlarms)

  const caught = fraction * (1 - missed)
  const escaping = fraction * missed
  const flagged = caught + (1 - fraction) * falseAlarms
  const passed = escaping + (1 - fraction) * (1 - falseAlarms)
  return {
    flagged,
    rightlyFlagged: flagged > 0 ? caught / flagged : 0,
    escaping,
    outgoing: passed > 0 ? escaping / passed : 0,
  }
}

/**
 * True fraction nonconforming behind an observed one: (observed − false alarms) ÷ (1 − missed − false alarms), cut to 0 … 1.
 *
 * @param observed fraction of units flagged, 0 to 1
 * @param errors known error rates, together below 1: a tester that flags both kinds alike tells nothing
 * @throws RangeError that names the argument out of range
 *
 * Source: W. J. Rogan & B. Gladen (1978), Amer. J. Epidemiol. 107, 71–76 (from memory).
 *
 * @example correctedFraction(0.0367, { missed: 0.1, falseAlarms: 0.01 }) // 0.03
 */
export function correctedFraction(observed: number, errors: TesterErrors): number {
  probability('observed', observed)
  checkErrors(errors)

  return corrected(observed, errors)
}

/**
 * Exact two-sided interval on the true fraction from a count of flagged units, the error rates being known.
 *
 * The flagged fraction rises with the true one, so the limits of Clopper and Pearson are carried over as they stand
 * and keep their confidence. Half of the risk is on each side.
 *
 * @param evidence sampleSize units tested, found flagged among them, two-sided confidence
 * @throws RangeError that names the argument out of range
 */
export function correctedInterval(evidence: SampleEvidence, errors: TesterErrors): Interval {
  checkErrors(errors)
  const { lower, upper } = clopperPearsonInterval(evidence)

  return { lower: corrected(lower, errors), upper: corrected(upper, errors) }
}

function corrected(observed: number, { missed, falseAlarms }: TesterErrors): number {
  return Math.min(1, Math.max(0, (observed - falseAlarms) / (1 - missed - falseAlarms)))
}

function checkErrors({ missed, falseAlarms }: TesterErrors): void {
  probability('missed', missed)
  probability('falseAlarms', falseAlarms)
  if (missed + falseAlarms >= 1)
    throw new RangeError(`missed + falseAlarms must be below 1, not ${missed + falseAlarms}`)
}
