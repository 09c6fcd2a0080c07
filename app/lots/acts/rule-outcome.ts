// What a lot's rule makes of a count: the plan that freezes, or why it waits for the officer.
import type { Tx } from '../../../db/client.ts'
import { type ClauseColumns, clauseOfLot } from '../../kit/clause.ts'
import { switchingOf } from '../../series/inspection.ts'
import { outsideSeries } from '../../series/outside.ts'
import type { RuleWait } from '../../terms/lot.ts'
import type { LockedLot } from '../record/lock.ts'
import { itemRowOf, type RuleRow, ruleIn } from '../record/rule.ts'
import { demandOf } from '../rules/demand.ts'
import { isReason } from '../rules/plan-reason.ts'
import { differsTooMuch, planOfRule, type RuledPlan } from '../rules/plan-rule.ts'
import { isWeaker } from '../rules/weak-plans.ts'

export type RuleOutcome = { kind: 'freezes'; plan: RuledPlan } | { kind: 'waits'; because: RuleWait }

type Lot = Pick<
  LockedLot,
  'itemId' | 'supplierId' | 'announcedSize' | 'isolated' | 'resubmissionOf' | 'replacementOf'
> &
  ClauseColumns

/** What the inspector confirms: the number counted, and that every carton carries the announced production mark. */
export type Confirmed = { size: number; oneMark: boolean }

/**
 * The item is the one that the officer saw, in the version that the officer saw: its terms are then those of the rule. A series that is
 * discontinued takes no lot until the supplier has acted, and that is for the officer.
 */
export async function outcomeOfRule(
  tx: Tx,
  lot: Lot,
  row: RuleRow,
  { size, oneMark }: Confirmed,
): Promise<RuleOutcome> {
  const item = await itemRowOf(tx, lot.itemId)
  if (row.itemId !== item.id || row.itemVersion !== item.version) return waits('item')
  if (!oneMark) return waits('marks')
  if (differsTooMuch(lot.announcedSize, size, item.countDifferencePercent)) return waits('count')
  const series = outsideSeries({ ...lot, size }) ? undefined : await switchingOf(tx, lot)
  if (series?.switching.inspection === 'discontinued') return waits('discontinued')
  const demand = demandOf(item, { size, resubmitted: lot.resubmissionOf !== null })
  const plan = planOfRule(ruleIn(row), demand)
  if (!plan) return waits('numbers')
  const { sampleSize, acceptanceNumber } = plan
  const stages = [{ sampleSize, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 }]
  const because = { reason: row.reason ?? undefined, byClause: row.byClause }
  if (isWeaker({ ...demand, stages }) && !isReason(because, clauseOfLot(lot, item))) return waits('weaker')
  return { kind: 'freezes', plan }
}

function waits(because: RuleWait): RuleOutcome {
  return { kind: 'waits', because }
}

/** What the check page of a receipt sends back, so that nothing else is carried out than what it showed. */
export function shownAs(outcome: RuleOutcome): string {
  if (outcome.kind === 'waits') return `waits ${outcome.because}`
  const { kind, sampleSize, acceptanceNumber } = outcome.plan
  return `${kind} ${sampleSize}/${acceptanceNumber}`
}
