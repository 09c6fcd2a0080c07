// How an item's terms are said.
import type { AfterRejection } from '../../app/statistics/economics/costs.ts'
import type { DecisionRule, UndecidedRule } from '../../app/terms/item.ts'
import { accuracy, money } from '../figures.ts'
import { Fact } from '../form.tsx'

export const policyWords: Record<DecisionRule, { short: string; long: string }> = {
  strict: { short: 'strict: do not conform', long: 'Strict: a marginal cord counts as not conforming' },
  lenient: { short: 'lenient: conform', long: 'Lenient: a marginal cord counts as conforming' },
}

export const rejectionWords: Record<AfterRejection, { label: string; note: string }> = {
  return: { label: 'returned', note: 'at the cost of a returned lot' },
  screen: { label: 'screened', note: 'every cord left is tested, and none escapes' },
}

export const undecidedWords: Record<UndecidedRule, { label: string; note: string }> = {
  'manager-rules': { label: 'nothing until the manager rules', note: 'no verdict accepts before' },
  nonconforming: { label: 'not conforming, for good', note: 'nobody rules' },
}

/** 5 is so many cords, 1% is a share of the lot. */
export function tooManyWords(asSaid: string): string {
  if (asSaid.endsWith('%')) return `${asSaid.slice(0, -1)} % of the lot`
  return asSaid === '1' ? '1 cord' : `${asSaid} cords`
}

/** Whole cents as they are typed into a field: 130 is 1.30. */
export function centsAsTyped(cents: number): string {
  return `${Math.floor(cents / 100)}.${String(cents % 100).padStart(2, '0')}`
}

type Costs = { costTestCents: number; costEscapeCents: number; costReturnCents: number }

export function CostsFact({ costs, currency }: { costs: Costs; currency: string }) {
  return (
    <Fact name="Costs">
      {money(costs.costTestCents, currency)} a test, {money(costs.costEscapeCents, currency)} an escaped cord,{' '}
      {money(costs.costReturnCents, currency)} a lot returned
    </Fact>
  )
}

export function AccuracyFact({ crosstalk, returnLoss }: { crosstalk: string; returnLoss: string }) {
  return (
    <Fact name="Tester’s accuracy">
      crosstalk {accuracy(crosstalk)}, return loss {accuracy(returnLoss)}
    </Fact>
  )
}
