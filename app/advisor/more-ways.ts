// The ways of testing that take a search or a table of the standard: two samples, groups, and the standard's plan.
import { exceeds, riskOf } from '../statistics/check.ts'
import { unitsSparedInLot } from '../statistics/economics/stopping.ts'
import { rejectingWhenCertain } from '../statistics/plans/certain.ts'
import { designDoubleForLot, doublePlan } from '../statistics/plans/double.ts'
import { designGroupsForLot } from '../statistics/plans/groups.ts'
import { acceptanceOfLot, averageSampleSizeOfLot, outcomesOfLot } from '../statistics/plans/measures.ts'
import type { LotRisk, Stage, Stages } from '../statistics/plans/plan.ts'
import { standardPlan } from '../statistics/plans/standard.ts'
import { replayOnLot } from '../statistics/replay.ts'
import { greatestInteger } from '../statistics/search.ts'
import { TooManySteps } from '../statistics/steps.ts'
import {
  acceptance,
  type Chance,
  type MoreWays,
  type SampledAlternative,
  type StandardAlternative,
  way,
} from './compare.ts'
import type { Question } from './question.ts'

/** All, where the lot has them: a search that would look at too much is left out. */
export function moreWays(question: Question): MoreWays {
  return { double: doubleWay(question), groups: groupsWay(question), standard: standardWay(question) }
}

/** What of a way its chances depend on. */
type Sampled = Pick<SampledAlternative, 'stages' | 'sampleSize' | 'acceptanceNumber'>

/** Chance that a way accepts a lot with so many nonconforming cords. */
export function chanceOf({ stages, ...last }: Sampled, lotSize: number, nonconforming: number): Chance {
  if (stages.length === 1) return acceptance(last, lotSize, nonconforming)
  const outcomes = outcomesOfLot({ stages }, { lotSize, nonconforming })
  const sum = (of: 'accepted' | 'rejected') => outcomes.reduce((total, outcome) => total + outcome[of], 0)
  const impossible = stages.every((stage) => stage.acceptanceNumber < stage.sampleSize + nonconforming - lotSize)
  const certain = stages.every((stage) => Math.min(stage.sampleSize, nonconforming) < stage.rejectionNumber)
  return {
    yes: impossible ? 0 : certain ? 1 : Math.max(sum('accepted'), Number.MIN_VALUE),
    no: certain ? 0 : impossible ? 1 : Math.max(sum('rejected'), Number.MIN_VALUE),
  }
}

/** Keeps both risks as the single plan does; clear lots are decided by the first sample alone. */
function doubleWay(question: Question): SampledAlternative | undefined {
  return stagedWay('double', question, (requirements) => doublePlan(designDoubleForLot(requirements)))
}

/** The same in groups of the usual size; one group is a single plan, which is listed. */
function groupsWay(question: Question): SampledAlternative | undefined {
  const found = stagedWay('groups', question, (requirements) => rejectingWhenCertain(designGroupsForLot(requirements)))
  return found && found.stages.length > 1 ? found : undefined
}

type Wanted = { lotSize: number; producer: LotRisk; consumer: LotRisk }

function stagedWay(
  kind: 'double' | 'groups',
  question: Question,
  design: (requirements: Wanted) => Stages,
): SampledAlternative | undefined {
  const { lotSize, tooMany, confidence, good } = question
  const stages = stagesFor(question, design)
  const last = stages?.at(-1)
  if (!stages || !last) return undefined
  const sampled = { stages, sampleSize: last.sampleSize, acceptanceNumber: last.acceptanceNumber }
  const bad = { lotSize, nonconforming: tooMany }
  const risk = riskOf(confidence)
  const escapes = greatestInteger(0, lotSize, (nonconforming) =>
    exceeds(acceptanceOfLot({ stages }, { lotSize, nonconforming }), risk),
  )
  const { yes: spared, no: rejected } = chanceOf(sampled, lotSize, good.nonconforming)
  return {
    kind,
    ...sampled,
    average: averageSampleSizeOfLot({ stages }, bad) - unitsSparedInLot({ stages }, bad),
    acceptance: chanceOf(sampled, lotSize, tooMany),
    producersRisk: { yes: rejected, no: spared },
    averageOutgoing: replayOnLot({ plan: { stages }, ...bad }).shipped,
    detectsFrom: escapes < lotSize ? escapes + 1 : undefined,
  }
}

function stagesFor(
  { lotSize, tooMany, confidence, good }: Question,
  design: (requirements: Wanted) => Stages,
): readonly Stage[] | undefined {
  if (lotSize < 2) return undefined
  try {
    const consumer = { nonconforming: tooMany, risk: riskOf(confidence) }
    const producer = { nonconforming: good.nonconforming, risk: good.risk }
    return design({ lotSize, producer, consumer }).stages
  } catch (error) {
    // the engine's words for "there is none here"
    if (error instanceof TooManySteps || error instanceof RangeError) return undefined
    throw error
  }
}

function standardWay(question: Question): StandardAlternative | undefined {
  const { lotSize, standard: wish } = question
  if (!wish || lotSize < 2) return undefined
  const standard = standardPlan({ lotSize, sampling: 'single', ...wish })
  const [only] = standard.plan.stages
  return only && { ...way('standard', only, question), standard }
}
