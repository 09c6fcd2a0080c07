// What each way of testing does to the lot in hand, side by side, and which of them is advised.

import { upperBoundInLot } from '../statistics/bounds/lot.ts'
import { riskOf } from '../statistics/check.ts'
import { atMost, moreThan } from '../statistics/distributions/hypergeometric.ts'
import type { Stage } from '../statistics/plans/plan.ts'
import { designSingleForLot, singlePlan } from '../statistics/plans/single.ts'
import type { StandardPlan } from '../statistics/plans/standard.ts'
import { averageUntilRejection } from '../statistics/plans/until-rejection.ts'
import { designZeroForLot } from '../statistics/plans/zero.ts'
import { replayOnLot } from '../statistics/replay.ts'
import type { OwnPlan, Question } from './question.ts'

/** A chance and that of the contrary, each computed as a tail of its own; neither is 0 unless the thing is impossible. */
export type Chance = { yes: number; no: number }

/** A sample with an acceptance number, and what it does. */
export type SampledAlternative = {
  kind: 'zero-acceptance' | 'single' | 'double' | 'groups' | 'percentage' | 'today' | 'contract' | 'standard'
  stages: readonly Stage[]
  /** in all its samples */
  sampleSize: number
  /** of the last sample */
  acceptanceNumber: number
  /** cords tested on average in a lot with too many, stopping at the rejection number */
  average: number
  /** a lot with too many is accepted */
  acceptance: Chance
  /** a good lot is rejected */
  producersRisk: Chance
  /** nonconforming cords shipped on average from a lot with too many: found ones are taken out, a rejected lot ships none */
  averageOutgoing: number
  /** the fewest nonconforming cords with which a lot is caught as often as wanted: what the way really protects against; undefined where no lot is */
  detectsFrom: number | undefined
}
/** The standard's plan, and what a reader must know to check it against a copy of the standard. */
export type StandardAlternative = SampledAlternative & { kind: 'standard'; standard: StandardPlan }
/** Every cord: conforming ones are kept, the others go back. No test: everything ships. */
export type WholeAlternative = {
  kind: 'every-cord' | 'no-test'
  sampleSize: number
  acceptance: Chance
  producersRisk: Chance
  averageOutgoing: number
}
export type OpenAlternative = SampledAlternative | StandardAlternative | WholeAlternative

/** Whether a way draws a sample, and so has an acceptance number and a curve. */
export function isSampled(way: OpenAlternative): way is SampledAlternative {
  return way.kind !== 'every-cord' && way.kind !== 'no-test'
}

export type Comparison = {
  /** in the order of the table: the advised one first */
  alternatives: OpenAlternative[]
  advised: OpenAlternative
  /** the reader's percentage with none allowed, or their plan */
  today: SampledAlternative | undefined
}

/** Ways that take a search, or a table of the standard. */
export type MoreWays = {
  double: SampledAlternative | undefined
  groups: SampledAlternative | undefined
  standard: StandardAlternative | undefined
}

const never: Chance = { yes: 0, no: 1 }

/**
 * Compares the zero-acceptance plan, the single plan for both risks, the reader's percentage with none allowed or
 * their plan, the contract's plan where there is one, every cord, and no test, with the ways of `moreWays` among them; all exact for the lot in hand, drawn at random.
 *
 * Advised is the zero-acceptance plan, or, where the reader said which lots should rarely be sent back, the plan with the
 * fewest cords that keeps both risks; where nothing smaller than the lot does, every cord.
 */
export function compareAlternatives(question: Question, more?: MoreWays): Comparison {
  const { lotSize, tooMany, own } = question
  const zero = way('zero-acceptance', zeroFor(question), question)
  const single = way('single', singleFor(question), question)
  const today = todaysWay(question)
  const contract = own && way('contract', own, question)
  const every: WholeAlternative = {
    kind: 'every-cord',
    sampleSize: lotSize,
    acceptance: never,
    producersRisk: never,
    averageOutgoing: 0,
  }
  const certain = { yes: 1, no: 0 }
  const none: WholeAlternative = {
    kind: 'no-test',
    sampleSize: 0,
    acceptance: certain,
    producersRisk: never,
    averageOutgoing: tooMany,
  }

  const wanted = question.good.demanded ? single : zero
  const advised = wanted.sampleSize < lotSize ? wanted : every
  const sampled = [zero, single, more?.double, more?.groups, today, contract, more?.standard]
  const all: (OpenAlternative | undefined)[] = [...sampled, every, none]
  const alternatives = [advised, ...all.filter((each) => each !== undefined && each !== advised)].filter(
    (each) => each !== undefined,
  )
  return { alternatives, advised, today }
}

/** A percentage with none allowed, or the reader's plan. */
function todaysWay(question: Question): SampledAlternative | undefined {
  const { today } = question
  switch (today.kind) {
    case 'nothing':
      return undefined
    case 'plan':
      return way('today', today, question)
    case 'percentage':
      return way('percentage', { sampleSize: today.sampleSize, acceptanceNumber: 0 }, question)
  }
}

function zeroFor({ lotSize, tooMany, confidence }: Question): OwnPlan {
  const sampleSize = designZeroForLot({ lotSize, nonconforming: tooMany, risk: riskOf(confidence) })
  return { sampleSize, acceptanceNumber: 0 }
}

function singleFor({ lotSize, tooMany, confidence, good }: Question): OwnPlan {
  const consumer = { nonconforming: tooMany, risk: riskOf(confidence) }
  return designSingleForLot({ lotSize, producer: { nonconforming: good.nonconforming, risk: good.risk }, consumer })
}

/** A single sample and what it does. */
export function way<K extends SampledAlternative['kind']>(
  kind: K,
  plan: OwnPlan,
  question: Question,
): SampledAlternative & { kind: K } {
  const { lotSize, tooMany, confidence, good } = question
  const { sampleSize, acceptanceNumber } = plan
  const { yes: accepted, no: rejected } = acceptance(plan, lotSize, good.nonconforming)
  return {
    kind,
    stages: singlePlan({ sampleSize, acceptanceNumber }).stages,
    sampleSize,
    acceptanceNumber,
    average: averageUntilRejection(plan, { lotSize, nonconforming: tooMany }),
    acceptance: acceptance(plan, lotSize, tooMany),
    producersRisk: { yes: rejected, no: accepted },
    averageOutgoing: shippedFrom(plan, lotSize, tooMany),
    detectsFrom: detectsFrom(plan, lotSize, confidence),
  }
}

/** Chance that the plan accepts a lot with so many nonconforming cords. */
export function acceptance({ sampleSize, acceptanceNumber }: OwnPlan, lotSize: number, nonconforming: number): Chance {
  const draw = { lotSize, nonconforming, sampleSize }
  const impossible = acceptanceNumber < sampleSize + nonconforming - lotSize
  const certain = acceptanceNumber >= Math.min(sampleSize, nonconforming)
  return {
    yes: impossible ? 0 : Math.max(atMost(acceptanceNumber, draw), Number.MIN_VALUE),
    no: certain ? 0 : Math.max(moreThan(acceptanceNumber, draw), Number.MIN_VALUE),
  }
}

/** Nonconforming cords shipped on average; 0 only where none can be: untested cords of an accepted lot can always hold one. */
function shippedFrom(plan: OwnPlan, lotSize: number, nonconforming: number): number {
  const { shipped } = replayOnLot({ plan: singlePlan(plan), lotSize, nonconforming })
  const possible = plan.sampleSize < lotSize && acceptance(plan, lotSize, nonconforming).yes > 0
  return possible ? Math.max(shipped, Number.MIN_VALUE) : shipped
}

/** One more than the most that a sample which is only just accepted leaves possible. */
function detectsFrom(
  { sampleSize, acceptanceNumber }: OwnPlan,
  lotSize: number,
  confidence: number,
): number | undefined {
  if (acceptanceNumber >= sampleSize) return undefined
  return upperBoundInLot({ lotSize, sampleSize, found: acceptanceNumber, confidence }) + 1
}
