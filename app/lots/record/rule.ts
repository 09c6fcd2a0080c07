// The rule of an announced lot's plan, as it is kept and read.
import { eq } from 'drizzle-orm'
import type { Tx } from '../../../db/client.ts'
import { planRules } from '../../../db/schema/plan-rules.ts'
import { items } from '../../../db/schema/register.ts'
import { record } from '../../audit/record.ts'
import { type ClauseColumns, clauseOfLot } from '../../kit/clause.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { RuleWait } from '../../terms/lot.ts'
import type { Person } from '../../terms/person.ts'
import { demandOf } from '../rules/demand.ts'
import { optionalReasonOf, reasonOf, type SaidReason } from '../rules/plan-reason.ts'
import { type PlanRule, planOfRule } from '../rules/plan-rule.ts'
import { isWeaker } from '../rules/weak-plans.ts'
import type { LockedLot } from './lock.ts'
import type { Names } from './steps.ts'

export type RuleRow = typeof planRules.$inferSelect

export type RuleFacts = {
  rule: PlanRule
  /** why a weaker plan than the item demands may be frozen */
  reason: string | undefined
  /** the contract's clause is the reason, as it stands when the plan freezes */
  byClause: boolean
  /** why the plan did not freeze by itself at the latest count */
  waits: RuleWait | undefined
  by: string
  at: Date
}

export function ruleFactsOf(row: RuleRow, name: Names): RuleFacts {
  const { reason, byClause, waits, chosenBy, chosenAt } = row
  const because = { reason: reason ?? undefined, byClause }
  return { rule: ruleIn(row), ...because, waits: waits ?? undefined, by: name(chosenBy), at: chosenAt }
}

/** The rule of a row, whose numbers the database keeps whole. */
export function ruleIn({ kind, good, goodRisk, sampleSize, acceptanceNumber }: RuleRow): PlanRule {
  if (kind === 'zero-acceptance' || kind === 'every-cord') return { kind }
  if (kind === 'single' && good !== null && goodRisk !== null) return { kind, good, goodRisk: Number(goodRisk) }
  if (kind === 'contract' && sampleSize !== null && acceptanceNumber !== null)
    return { kind, sampleSize, acceptanceNumber }
  throw new Error(`${kind} is no rule that is whole`)
}

export async function ruleRowOf(tx: Tx, lotId: number): Promise<RuleRow | undefined> {
  const [row] = await tx.select().from(planRules).where(eq(planRules.lotId, lotId))
  return row
}

/** The item of a lot in hand. */
export async function itemRowOf(tx: Tx, itemId: number): Promise<typeof items.$inferSelect> {
  const [item] = await tx.select().from(items).where(eq(items.id, itemId))
  if (!item) throw new Error(`the lot's item ${itemId} is not there`)
  return item
}

export type RuleLot = Pick<LockedLot, 'id' | 'itemId' | 'announcedSize' | 'resubmissionOf'> & ClauseColumns

/**
 * Keeps the rule of an announced lot in place of any before. What it makes of the announced number must be a plan, and a weaker one than the
 * item demands needs its reason now; once the lot is counted both are looked at again.
 */
export async function keepRule(
  tx: Tx,
  officer: Person,
  { id, itemId, announcedSize: lotSize, resubmissionOf, ...order }: RuleLot,
  { reason: words, byClause: named, ...rule }: PlanRule & SaidReason,
): Promise<void> {
  const item = await itemRowOf(tx, itemId)
  if (item.critical && rule.kind !== 'every-cord') throw new Refusal('invalid', 'plan/critical', {}, 'rule')
  const demand = demandOf(item, { size: lotSize, resubmitted: resubmissionOf !== null })
  const plan = planOfRule(rule, demand)
  if (!plan) throw new Refusal('invalid', 'rule/no-plan', { lotSize }, 'rule')
  const { sampleSize, acceptanceNumber } = plan
  const stages = [{ sampleSize, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 }]
  const judge = isWeaker({ ...demand, stages }) ? reasonOf : optionalReasonOf
  const { reason, byClause } = judge({ reason: words, byClause: named }, clauseOfLot(order, item))
  const kept = {
    kind: rule.kind,
    sampleSize: rule.kind === 'contract' ? rule.sampleSize : null,
    acceptanceNumber: rule.kind === 'contract' ? rule.acceptanceNumber : null,
    good: rule.kind === 'single' ? rule.good : null,
    goodRisk: rule.kind === 'single' ? String(rule.goodRisk) : null,
    reason: reason ?? null,
    byClause,
    itemId,
    itemVersion: item.version,
    chosenBy: officer.id,
    waits: null,
  }
  await tx
    .insert(planRules)
    .values({ lotId: id, ...kept })
    .onConflictDoUpdate({ target: planRules.lotId, set: kept })
  await record(tx, officer, 'lot.rule-chosen', `lot/${id}`, { ...rule, reason, byClause, announced: lotSize, plan })
}
