// The plan that a rule makes of the number counted: of that and the item's terms alone, nothing of the supplier's past.
import { kinds, type PlanRequirements } from '../../statistics/plans/kinds.ts'
import type { RuleKind } from '../../terms/lot.ts'
import type { Demand } from './demand.ts'

export type PlanRule =
  | { kind: Exclude<RuleKind, 'single' | 'contract'> }
  /** a lot with so few nonconforming cords is to be rejected with at most this chance */
  | { kind: 'single'; good: number; goodRisk: number }
  | { kind: 'contract'; sampleSize: number; acceptanceNumber: number }

type Asked = Omit<Demand, 'tightened'>

export type RuledPlan = { kind: RuleKind; sampleSize: number; acceptanceNumber: number }

/** The plan of this many cords; undefined where the rule has none for them. */
export function planOfRule(rule: PlanRule, demand: Asked): RuledPlan | undefined {
  const { lotSize } = demand
  const { kind } = rule
  if (kind === 'every-cord') return { kind, sampleSize: lotSize, acceptanceNumber: lotSize }
  if (kind === 'contract') {
    const { sampleSize, acceptanceNumber } = rule
    return sampleSize <= lotSize ? { kind, sampleSize, acceptanceNumber } : undefined
  }
  const wishes = kind === 'single' ? rule : { good: 0, goodRisk: 0.05 }
  const stage = designed(kind, requirementsOf(demand, { ...wishes, share: 1 }))
  return stage && { kind, sampleSize: stage.sampleSize, acceptanceNumber: stage.acceptanceNumber }
}

/** What the item demands and the buyer wishes, as every kind of plan takes it. */
export function requirementsOf(
  { lotSize, tooMany, catchOf100 }: Asked,
  { good, goodRisk, share }: { good: number; goodRisk: number; share: number },
): PlanRequirements {
  const risk = Number((1 - Number(catchOf100) / 100).toPrecision(12))
  return {
    lotSize,
    consumer: { nonconforming: tooMany, risk },
    producer: { nonconforming: Math.min(good, tooMany - 1), risk: goodRisk },
    share,
  }
}

/** The engine says by a RangeError that no plan of the kind keeps both risks for this lot. */
function designed(kind: 'zero-acceptance' | 'single', requirements: PlanRequirements) {
  try {
    return kinds[kind](requirements).stages[0]
  } catch (error) {
    if (error instanceof RangeError) return undefined
    throw error
  }
}

/** Whether the count is further from the announced number than the item allows, in percent of the announced. */
export function differsTooMuch(announced: number, counted: number, percent: string): boolean {
  return Math.abs(counted - announced) * 100 > Number(percent) * announced
}
