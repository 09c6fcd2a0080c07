// What a sample proves about the lot it came from, about the cords nobody tested, and about the process that made them.
import { boundsInLotAfterPlan } from '../statistics/bounds/after-plan.ts'
import {
  clopperPearsonInterval,
  type Interval,
  lowerBoundOfFraction,
  upperBoundOfFraction,
} from '../statistics/bounds/fraction.ts'
import { type IntervalMethod, intervalMethods, intervalOfFraction } from '../statistics/bounds/interval.ts'
import { lowerBoundInLot, upperBoundInLot } from '../statistics/bounds/lot.ts'
import { sampleToShow } from '../statistics/bounds/sample-to-show.ts'
import { lowerBoundOfFractionAfter, upperBoundOfFractionAfter } from '../statistics/bounds/stopped.ts'
import type { ProofQuestion } from './proof-question.ts'

/** Whole cords, each bound one-sided with the whole confidence. */
export type ProvenCount = { atLeast: number; atMost: number }

export type Needed =
  /** as many as claimed, or more, were found in the sample itself */
  | { kind: 'refuted' }
  /** `clean`: cords to test, none nonconforming; `withFound`: to test with as many as were found, where some were */
  | { kind: 'open' | 'shown'; clean: number; withFound: number | undefined }

/** A two-sided interval by a method that only nearly keeps the confidence. */
export type OtherInterval = Interval & { method: Exclude<IntervalMethod, 'clopper-pearson'> }

export type Proof = {
  lot: ProvenCount
  untested: ProvenCount
  /** one-sided bounds on the fraction nonconforming of the process */
  fraction: { atLeast: number; atMost: number }
  /** the two-sided interval at the same confidence */
  interval: Interval
  /** at the same confidence; they suppose a number of cords fixed beforehand, so there are none for another sample */
  others: OtherInterval[]
  needed: Needed
}

/** Exact bounds from a random sample: finite-lot (hypergeometric) on the counts, Clopper–Pearson on the fraction, both by how it was taken. */
export function prove(question: ProofQuestion): Proof {
  const { found, confidence, taken } = question
  const lot = provenOfLot(question)
  const half = (1 + confidence) / 2
  return {
    lot,
    untested: { atLeast: lot.atLeast - found, atMost: lot.atMost - found },
    fraction: provenOfProcess(question, confidence),
    interval: taken.kind === 'fixed' ? clopperPearsonInterval(sampleOf(question)) : intervalFrom(question, half),
    others: taken.kind === 'fixed' ? otherIntervals(question) : [],
    needed: neededFor(question, lot),
  }
}

function sampleOf({ tested, found, confidence }: ProofQuestion) {
  return { sampleSize: tested, found, confidence }
}

function provenOfLot({ lotSize, tested, found, confidence, taken }: ProofQuestion): ProvenCount {
  const sample = { lotSize, tested, found, confidence }
  switch (taken.kind) {
    case 'fixed': {
      const whole = { lotSize, sampleSize: tested, found, confidence }
      return { atLeast: lowerBoundInLot(whole), atMost: upperBoundInLot(whole) }
    }
    case 'stopped': {
      const { planned, rejectionNumber } = taken
      const stage = { sampleSize: planned, acceptanceNumber: rejectionNumber - 1, rejectionNumber }
      return boundsInLotAfterPlan({ ...sample, plan: { stages: [stage] }, stage: 1 })
    }
    case 'two-samples':
      return boundsInLotAfterPlan({ ...sample, plan: taken, stage: taken.stage })
  }
}

/**
 * One-sided bounds on the fraction, each of the whole confidence. After a stop with the r-th nonconforming cord, the m-th tested:
 * it came no earlier with P(X ≤ r − 1) among m − 1, and no later with P(X ≥ r) among m (inverse sampling: J. B. S. Haldane
 * 1945, Biometrika 33, 222–225, from memory). Of a second or first sample that was stopped, the cords left out count as in the lot.
 */
function provenOfProcess(question: ProofQuestion, confidence: number): ProvenCount {
  const { tested, found, taken } = question
  const sample = { sampleSize: tested, found, confidence }
  switch (taken.kind) {
    case 'fixed':
      return { atLeast: lowerBoundOfFraction(sample), atMost: upperBoundOfFraction(sample) }
    case 'stopped':
      return {
        atLeast: lowerBoundOfFraction(sample),
        atMost: upperBoundOfFraction({ sampleSize: tested - 1, found: found - 1, confidence }),
      }
    case 'two-samples': {
      const end = { plan: taken, stage: taken.stage, confidence }
      return {
        atLeast: lowerBoundOfFractionAfter({ ...end, found }),
        atMost: upperBoundOfFractionAfter({ ...end, found: found + taken.left }),
      }
    }
  }
}

/** Both bounds, each with half of the risk. */
function intervalFrom(question: ProofQuestion, half: number): Interval {
  const { atLeast, atMost } = provenOfProcess(question, half)
  return { lower: atLeast, upper: atMost }
}

function otherIntervals(question: ProofQuestion): OtherInterval[] {
  const methods = intervalMethods.filter((method) => method !== 'clopper-pearson')
  return methods.map((method) => ({ method, ...intervalOfFraction(method, sampleOf(question)) }))
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
