// What one plan costs under many beliefs: what belongs to the plan is worked out once, each belief is then a sum over its ends.

import type { BetaPrior } from '../bounds/posterior.ts'
import { count } from '../check.ts'
import { type Ending, endingsOf, sharesReaching, undecidedBefore } from '../plans/passage.ts'
import { checkStages, type Stage, type Stages } from '../plans/plan.ts'
import { type ChanceRow, chancesAlong, chancesIn } from './chances.ts'
import { checkEconomics, costOfRejection, meanOf } from './costs.ts'
import type { EconomicModel } from './expected-cost.ts'

/** An economic model without the prior. */
export type Terms = Omit<EconomicModel, 'prior'>

/** Expected cost as it would be under a belief. */
export type CostByBelief = (prior: BetaPrior) => number

/** Where a path or a row of counts may be: `plain` is paid there for certain, `escaping` for each unit's chance not to conform. */
type Paid = { readonly plain: Float64Array; readonly escaping: Float64Array }

/**
 * The expected cost of a plan as a function of the belief: `expectedCost` of the same economic model, to 1e-10 of the greatest
 * cost that it is made of. Made for many beliefs, each of which then takes about `stepsOfCost(plan)` steps.
 *
 * Whatever the belief, the orders in which the plan ends at a stage with so many found are the same share of all orders, and
 * cost the same but for what escapes. So the cost is a sum over ends of share × chance of so many found × cost there.
 *
 * @throws RangeError that names the argument, or the stage that is not one; the function does for a prior out of range
 */
export function costByBelief(terms: Terms, plan: Stages): CostByBelief {
  count('lotSize', terms.lotSize)
  checkStages(plan, terms.lotSize)

  const checked = (cost: CostByBelief) => (prior: BetaPrior) => {
    checkEconomics({ costs: terms.costs, prior })
    return cost(prior)
  }
  const { lotSize, costs } = terms
  const [first] = plan.stages
  if (!first) return checked((prior) => costs.escape * lotSize * meanOf(prior))
  if (acceptsAll(first))
    return checked(
      (prior) => costs.test * first.sampleSize + costs.escape * (lotSize - first.sampleSize) * meanOf(prior),
    )
  return checked(isUnitByUnit(plan) ? unitByUnit(terms, plan) : byStages(terms, plan))
}

/** Updates and terms that one belief takes at most, from the plan's numbers alone. */
export function stepsOfCost(plan: Stages): number {
  const { stages } = plan
  const [first] = stages
  const last = stages.at(-1)
  if (!first || !last || acceptsAll(first)) return 0
  let accepted = -1
  let counts = 0
  for (const { sampleSize, acceptanceNumber, rejectionNumber } of stages) {
    const most = Math.min(sampleSize, acceptanceNumber)
    counts += Math.max(0, most - accepted) + Math.max(0, Math.min(sampleSize, rejectionNumber - 1) - acceptanceNumber)
    accepted = Math.max(accepted, most)
  }
  return isUnitByUnit(plan) ? 4 * last.sampleSize : counts
}

/** As where every unit is tested: what is found decides nothing. */
function acceptsAll({ sampleSize, acceptanceNumber }: Stage): boolean {
  return acceptanceNumber >= sampleSize
}

function isUnitByUnit({ stages }: Stages): boolean {
  return stages.every(({ sampleSize }, index) => sampleSize === index + 1)
}

/** Every verdict falls at an end of its own: accepting ones and rejecting ones each lie on one path through the counts. */
function unitByUnit(terms: Terms, plan: Stages): CostByBelief {
  const { lotSize, costs } = terms
  const accepting = pathOf(endsBy(plan, 'accepting'), (tested) => ({
    plain: costs.test * tested,
    escaping: costs.escape * (lotSize - tested),
  }))
  const rejecting = pathOf(endsBy(plan, 'rejecting'), (tested) => ({
    plain: costs.test * tested + costOfRejection(tested, terms),
    escaping: 0,
  }))
  return (prior) => sumAlong(accepting, prior) + sumAlong(rejecting, prior)
}

type Path = Paid & { readonly ends: readonly Ending[]; readonly chances: Float64Array }

function endsBy(plan: Stages, verdict: 'accepting' | 'rejecting'): Ending[] {
  const ends: Ending[] = []
  for (const each of endingsOf(plan)) if (each) ends.push(...each[verdict])
  return ends
}

function pathOf(ends: readonly Ending[], paid: (tested: number) => { plain: number; escaping: number }): Path {
  const path = {
    ends,
    chances: new Float64Array(ends.length),
    plain: new Float64Array(ends.length),
    escaping: new Float64Array(ends.length),
  }
  for (const [i, { tested, share }] of ends.entries()) {
    const { plain, escaping } = paid(tested)
    path.plain[i] = share * plain
    path.escaping[i] = share * escaping
  }
  return path
}

function sumAlong({ ends, chances, plain, escaping }: Path, prior: BetaPrior): number {
  chancesAlong(ends, prior, chances)
  let sum = 0
  for (let i = 0; i < ends.length; i++) {
    const chance = chances[i]!
    if (chance === 0) continue
    const { tested, found } = ends[i]!
    sum += chance * (plain[i]! + (escaping[i]! * (prior.a + found)) / (prior.a + prior.b + tested))
  }
  return sum
}

/**
 * A few stages of many units: rejected is who is neither accepted nor goes on, so that the many counts that reject need no sum.
 * Who goes on pays for the next sample, and for a rejection there instead of here; who is accepted, for none.
 */
function byStages(terms: Terms, plan: Stages): CostByBelief {
  const { lotSize, costs } = terms
  const { stages } = plan
  const passages = undecidedBefore(plan)
  const rejection = stages.map(({ sampleSize }) => costOfRejection(sampleSize, terms))
  const rows: PaidRow[] = []
  for (const [index, { sampleSize, acceptanceNumber }] of stages.entries()) {
    const before = passages[index]!
    const shares = sharesReaching(before, sampleSize, before.from, Math.min(sampleSize, acceptanceNumber))
    const row = { tested: sampleSize, from: before.from }
    const escaping = costs.escape * (lotSize - sampleSize)
    rows.push({
      ...row,
      plain: shares.map((share) => -share * rejection[index]!),
      escaping: shares.map((share) => share * escaping),
    })
    const next = stages[index + 1]
    if (!next) break
    const going = passages[index + 1]!
    const more = costs.test * (next.sampleSize - sampleSize) + rejection[index + 1]! - rejection[index]!
    const plain = going.share.map((share) => share * more)
    rows.push({ tested: sampleSize, from: going.from, plain, escaping: new Float64Array(plain.length) })
  }
  const certain = costs.test * stages[0]!.sampleSize + rejection[0]!
  return (prior) => rows.reduce((sum, row) => sum + sumOver(row, prior), certain)
}

type PaidRow = Omit<ChanceRow, 'to'> & Paid

function sumOver(row: PaidRow, prior: BetaPrior): number {
  const { tested, from, plain, escaping } = row
  const chances = chancesIn({ tested, from, to: from + plain.length - 1 }, prior)
  let sum = 0
  for (let i = 0; i < plain.length; i++)
    sum += chances[i]! * (plain[i]! + (escaping[i]! * (prior.a + from + i)) / (prior.a + prior.b + tested))
  return sum
}
