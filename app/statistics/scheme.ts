// What the standard's plans do together: the switching rules as an exact Markov chain over a series of lots.
import { expectedSteps, longRunShares } from './chain.ts'
import { probability } from './check.ts'
import { atMost } from './distributions/binomial.ts'
import { acceptanceOfProcess, averageSampleSizeOfProcess, outcomesOfProcess } from './plans/measures.ts'
import { acceptanceNumberOneStepTighter, type Inspection, type StandardPlan } from './plans/standard.ts'
import type { AcceptanceQualityLimit } from './plans/tables/table.ts'
import { afterLot, type Edition, type InspectedLot, resumed, type SwitchingState, startOfSeries } from './switching.ts'

/**
 * The three plans of one code letter and limit, and the rules between them. The reduced table of the 1999 edition is not known to
 * the project: with its rules too the reduced plan is that of 105E, in whose gap a lot is accepted and reduced inspection ends.
 */
export type SwitchedScheme = {
  readonly plans: Readonly<Record<Inspection, StandardPlan>>
  readonly acceptanceQualityLimit: AcceptanceQualityLimit
  readonly edition: Edition
  /** Production is steady and the authority wants reduced inspection; 105E's limit number then counts as met. */
  readonly reducedWanted: boolean
}

/** Long-run averages over lots of a steady process. */
export type SchemePerformance = {
  /** Share of lots accepted. */
  readonly acceptance: number
  /** Units tested in a lot on average, begun samples finished. */
  readonly averageSampleSize: number
  /** Share of lots inspected under each severity. */
  readonly share: Readonly<Record<Inspection, number>>
  /** Lots from the start of the series until it is first discontinued, on average; Infinity where it never is. */
  readonly lotsUntilDiscontinued: number
}

/**
 * Operating characteristic and average sample size of a whole scheme at one quality, by the exact chain of its switching rules.
 *
 * The long run counts inspected lots; a discontinued series goes on under tightened inspection, its quality unchanged.
 * Lots are independent samples of a steady process, so that the law is binomial.
 *
 * @param fraction fraction nonconforming of the process, 0 to 1
 * @throws RangeError that names the argument
 *
 * Source: the chain is that of the state machine in switching.ts itself; for 2 of 5 and 5 in a row its mean times agree with
 * the closed forms of K. S. Stephens and K. E. Larson (1967), Industrial Quality Control 24, 310–319 (from memory).
 */
export function schemePerformance(scheme: SwitchedScheme, fraction: number): SchemePerformance {
  probability('fraction', fraction)

  const events = eventsOf(scheme, fraction)
  const { states, moves } = walked(scheme.edition, events)
  const shares = longRunShares({ size: states.length, step: matrixOf(states.length, moves, (to) => to) })
  const share = { normal: 0, tightened: 0, reduced: 0 }
  for (const [index, state] of states.entries())
    if (state.inspection !== 'discontinued') share[state.inspection] += shares[index]!
  return {
    acceptance: averageOver(share, (each) => acceptanceOfProcess(scheme.plans[each].plan, fraction)),
    averageSampleSize: averageOver(share, (each) => averageSampleSizeOfProcess(scheme.plans[each].plan, fraction)),
    share,
    lotsUntilDiscontinued: stepsUntilDiscontinued(states.length, moves),
  }
}

/** What can happen to a lot, as the rules see it, and its chance. */
type Event = { readonly lot: InspectedLot; readonly chance: number }

/** One step of the chain; `ends` where it leads through discontinuation. */
type Move = { readonly from: number; readonly to: number; readonly chance: number; readonly ends: boolean }

function eventsOf({ plans, acceptanceQualityLimit, edition, reducedWanted }: SwitchedScheme, fraction: number) {
  const base = {
    original: true,
    inGap: false,
    score: 0,
    steady: reducedWanted,
    reducedWanted,
    withinLimitNumber: true,
  } as const
  const passed = { ...base, accepted: true } as const
  const failed = { ...base, accepted: false } as const
  const chances = (inspection: Inspection) => {
    const { plan } = plans[inspection]
    const rejected = outcomesOfProcess(plan, fraction).reduce((sum, stage) => sum + stage.rejected, 0)
    return { accepted: acceptanceOfProcess(plan, fraction), rejected }
  }
  const normal = chances('normal')
  const scored =
    edition === '1999' ? scoredOf(plans.normal, acceptanceQualityLimit, fraction) : { chance: 0, score: 0 as const }
  const tightened = chances('tightened')
  const reduced = chances('reduced')
  const stays = atMost(plans.reduced.staysUpTo, { sampleSize: plans.reduced.plan.stages[0]!.sampleSize, fraction })
  return {
    normal: [
      { lot: { ...passed, score: scored.score }, chance: scored.chance },
      { lot: passed, chance: Math.max(0, normal.accepted - scored.chance) },
      { lot: failed, chance: normal.rejected },
    ],
    tightened: [
      { lot: passed, chance: tightened.accepted },
      { lot: failed, chance: tightened.rejected },
    ],
    reduced: [
      { lot: passed, chance: stays },
      { lot: { ...passed, inGap: true }, chance: Math.max(0, reduced.accepted - stays) },
      { lot: failed, chance: reduced.rejected },
    ],
    discontinued: [],
  }
}

/** Chance that a lot under normal inspection adds to the switching score, and what it adds. */
function scoredOf({ plan, codeLetter }: StandardPlan, limit: AcceptanceQualityLimit, fraction: number) {
  const { sampleSize, acceptanceNumber } = plan.stages[0]!
  const single = plan.stages.length === 1
  const score: 2 | 3 = single && acceptanceNumber < 2 ? 2 : 3
  const upTo = single && acceptanceNumber >= 2 ? acceptanceNumberOneStepTighter(codeLetter, limit) : acceptanceNumber
  return { chance: atMost(upTo, { sampleSize, fraction }), score }
}

/** Every state that the series can come to, and the moves between them. */
function walked(edition: Edition, events: Readonly<Record<SwitchingState['inspection'], readonly Event[]>>) {
  const states: SwitchingState[] = [startOfSeries]
  const indexes = new Map([[keyOf(startOfSeries), 0]])
  const moves: Move[] = []
  for (let from = 0; from < states.length; from++) {
    const state = states[from]!
    for (const { lot, chance } of events[state.inspection]) {
      if (chance === 0) continue
      const next = afterLot(state, lot, edition)
      const going = resumed(next)
      const key = keyOf(going)
      const to = indexes.get(key) ?? states.push(going) - 1
      indexes.set(key, to)
      moves.push({ from, to, chance, ends: next.inspection === 'discontinued' })
    }
  }
  return { states, moves }
}

/** What tells states apart; the reason of the last change does not. */
function keyOf(state: SwitchingState): string {
  return JSON.stringify({ ...state, reason: '' })
}

function matrixOf(
  size: number,
  moves: readonly Move[],
  of: (to: number, move: Move) => number | undefined,
): Float64Array {
  const step = new Float64Array(size * size)
  for (const move of moves) {
    const to = of(move.to, move)
    if (to !== undefined) step[move.from * size + to]! += move.chance
  }
  return step
}

function stepsUntilDiscontinued(size: number, moves: readonly Move[]): number {
  const end = new Float64Array(size)
  for (const { from, chance, ends } of moves) if (ends) end[from]! += chance
  return expectedSteps({
    size,
    step: matrixOf(size, moves, (to, { ends }) => (ends ? undefined : to)),
    end,
    down: size - 1,
  })[0]!
}

function averageOver(share: Readonly<Record<Inspection, number>>, value: (inspection: Inspection) => number): number {
  return share.normal * value('normal') + share.tightened * value('tightened') + share.reduced * value('reduced')
}
