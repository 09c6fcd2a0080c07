// Writes a lot's plan with the terms of its item: what the officer's freezing and the receipt of a lot with a rule have in common.
import type { Tx } from '../../../db/client.ts'
import { plans } from '../../../db/schema/lots.ts'
import type { items } from '../../../db/schema/register.ts'
import { record } from '../../audit/record.ts'
import { type ClauseColumns, clauseOfLot } from '../../kit/clause.ts'
import { Refusal } from '../../kit/refusal.ts'
import { standardToFreeze } from '../../series/frozen.ts'
import type { Stage } from '../../statistics/plans/plan.ts'
import type { OneStageKind, StagedKind } from '../../terms/lot.ts'
import type { Person } from '../../terms/person.ts'
import { changeLot, type LockedLot } from '../record/lock.ts'
import { demandOf } from '../rules/demand.ts'
import { stateAfter } from '../rules/lifecycle.ts'
import { reasonOf, type SaidReason } from '../rules/plan-reason.ts'
import { checkedStages } from '../rules/stages.ts'
import { isWeaker } from '../rules/weak-plans.ts'

/** A plan that looks at its sample once, or one stage after stage with cumulative numbers. */
export type ChosenPlan =
  | { kind: OneStageKind; sampleSize: number; acceptanceNumber: number }
  | { kind: StagedKind; stages: readonly Stage[] }

type Choice = {
  chosen: ChosenPlan
  /** why, where the plan is weaker than the item demands */
  because: SaidReason
  /** whose rule it follows where the plan freezes by itself */
  chosenBy: number | undefined
}

/**
 * Freezes the plan of a counted lot, which is locked. It works out itself whether the plan is weaker than the item demands, so that no
 * form can pass it by: then it needs a reason, which stays with it.
 */
export async function writePlan(
  tx: Tx,
  person: Person,
  { lot, item }: { lot: PlannedLot; item: Item },
  { chosen, because, chosenBy }: Choice,
): Promise<void> {
  const lotSize = lot.size
  if (item.critical && chosen.kind !== 'every-cord') throw new Refusal('invalid', 'plan/critical', {}, 'sampleSize')
  const standard = await standardToFreeze(tx, lot)
  const checked = checkedPlan(chosen, { lotSize, groupSize: item.groupSize })
  const demand = demandOf(item, { size: lotSize, resubmitted: lot.resubmissionOf !== null })
  const { tooMany, catchOf100 } = demand
  const clause = clauseOfLot(lot, item)
  const weaker = isWeaker({ ...checked, ...demand }) ? reasonOf(because, clause) : undefined
  const why = { weakerReason: weaker?.reason ?? null, weakerByClause: weaker?.byClause ?? false }
  const plan = { lotSize, ...why, ...clause, tooMany, catchOf100, ...checked, ...termsOf(item), ...standard, chosenBy }
  await tx.insert(plans).values({ lotId: lot.id, ...plan, frozenBy: person.id })
  await changeLot(tx, lot, { state: stateAfter('plan', 'received') })
  await record(tx, person, 'lot.planned', `lot/${lot.id}`, plan)
}

type Item = typeof items.$inferSelect
type PlannedLot = Pick<LockedLot, 'id' | 'isolated' | 'supplierId' | 'itemId' | 'resubmissionOf' | 'replacementOf'> &
  ClauseColumns & { size: number }

/** The plan as it is kept; throws Refusal that names the field to mend. */
function checkedPlan(chosen: ChosenPlan, of: { lotSize: number; groupSize: number }) {
  if ('stages' in chosen) return checkedStages(chosen, of)
  checkNumbers(chosen, of.lotSize)
  const { kind, sampleSize, acceptanceNumber } = chosen
  const stages = [{ sampleSize, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 }]
  return { kind, sampleSize, acceptanceNumber, stages }
}

type Numbers = { kind: OneStageKind; sampleSize: number; acceptanceNumber: number }

function checkNumbers({ kind, sampleSize, acceptanceNumber }: Numbers, lotSize: number): void {
  if (!Number.isInteger(sampleSize) || sampleSize < 1 || sampleSize > lotSize)
    throw new Refusal('invalid', 'plan/sample-size', { lotSize }, 'sampleSize')
  if (kind === 'every-cord') {
    if (sampleSize !== lotSize || acceptanceNumber !== lotSize)
      throw new Refusal('invalid', 'plan/every-cord', { lotSize }, 'sampleSize')
    return
  }
  if (!Number.isInteger(acceptanceNumber) || acceptanceNumber < 0 || acceptanceNumber >= sampleSize)
    throw new Refusal('invalid', 'plan/acceptance-number', { most: sampleSize - 1 }, 'acceptanceNumber')
  if (kind === 'zero-acceptance' && acceptanceNumber !== 0)
    throw new Refusal('invalid', 'plan/zero-acceptance', {}, 'acceptanceNumber')
}

function termsOf(item: Item) {
  const { categoryClaimed, cordLimit, marginalPolicy, crosstalkAccuracy, returnLossAccuracy } = item
  const { costTestCents, costEscapeCents, costReturnCents, afterRejection, undecidedCounts } = item
  return {
    categoryClaimed,
    cordLimit,
    marginalPolicy,
    crosstalkAccuracy,
    returnLossAccuracy,
    costTestCents,
    costEscapeCents,
    costReturnCents,
    afterRejection,
    undecidedCounts,
  }
}
