// What a sample proves about the lot it came from, about the cords nobody tested, and about the process that made them.
import {
  clopperPearsonInterval,
  type Interval,
  lowerBoundOfFraction,
  upperBoundOfFraction,
} from '../statistics/bounds/fraction.ts'
import { lowerBoundInLot, upperBoundInLot } from '../statistics/bounds/lot.ts'
import { lowerBoundInRemainder, upperBoundInRemainder } from '../statistics/bounds/remainder.ts'
import { sampleToShow } from '../statistics/bounds/sample-to-show.ts'
import type { ProofQuestion } from './proof-question.ts'

/** Whole cords, each bound one-sided with the whole confidence. */
export type ProvenCount = { atLeast: number; atMost: number }

export type Needed =
  /** as many as claimed, or more, were found in the sample itself */
  | { kind: 'refuted' }
  /** `clean`: cords to test, none nonconforming; `withFound`: to test with as many as were found, where some were */
  | { kind: 'open' | 'shown'; clean: number; withFound: number | undefined }

export type Proof = {
  lot: ProvenCount
  untested: ProvenCount
  /** one-sided bounds on the fraction nonconforming of the process */
  fraction: { atLeast: number; atMost: number }
  /** the two-sided interval at the same confidence */
  interval: Interval
  needed: Needed
}

/** Exact bounds from a random sample: finite-lot (hypergeometric) on the counts, Clopper–Pearson on the fraction. */
export function prove(question: ProofQuestion): Proof {
  const { lotSize, tested, found, confidence } = question
  const inLot = { lotSize, sampleSize: tested, found, confidence }
  const sample = { sampleSize: tested, found, confidence }
  const lot = { atLeast: lowerBoundInLot(inLot), atMost: upperBoundInLot(inLot) }
  return {
    lot,
    untested: { atLeast: lowerBoundInRemainder(inLot), atMost: upperBoundInRemainder(inLot) },
    fraction: { atLeast: lowerBoundOfFraction(sample), atMost: upperBoundOfFraction(sample) },
    interval: clopperPearsonInterval(sample),
    needed: neededFor(question, lot),
  }
}

function neededFor({ lotSize, found, confidence, claim }: ProofQuestion, lot: ProvenCount): Needed {
  if (found >= claim) return { kind: 'refuted' }
  const toShow = { lotSize, fewerThan: claim, confidence }
  return {
    kind: lot.atMost < claim ? 'shown' : 'open',
    clean: sampleToShow({ ...toShow, found: 0 }),
    withFound: found === 0 ? undefined : sampleToShow({ ...toShow, found }),
  }
}
