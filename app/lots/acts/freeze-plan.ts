// The officer's choice of a plan, frozen with the item's terms before any cord is opened.

import { eq } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { plans } from '../../../db/schema/lots.ts'
import { items } from '../../../db/schema/register.ts'
import { record } from '../../audit/record.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import { requireStanding } from '../../people/standing.ts'
import { standardToFreeze } from '../../series/frozen.ts'
import type { Stage } from '../../statistics/plans/plan.ts'
import type { OneStageKind, StagedKind } from '../../terms/lot.ts'
import type { Person } from '../../terms/person.ts'
import { changeLot, lockLot, requireState, requireVersion } from '../record/lock.ts'
import { tooManyIn } from '../record/steps.ts'
import { stateAfter } from '../rules/lifecycle.ts'
import { checkedStages } from '../rules/stages.ts'
import { isWeaker } from '../rules/weak-plans.ts'

/** A plan that looks at its sample once, or one stage after stage with cumulative numbers. */
export type ChosenPlan =
  | { kind: OneStageKind; sampleSize: number; acceptanceNumber: number }
  | { kind: StagedKind; stages: readonly Stage[] }

/**
 * Freezes the plan of a received lot together with the terms of its item. Neither is changed afterwards, so nobody can
 * move the acceptance number, the limit or the policy for marginal cords once results are seen. A plan that lets more lots with too many
 * through than the item demands needs a reason, which stays with it; a stronger one keeps none.
 */
export async function freezePlan(
  db: Db,
  officer: Person,
  lotId: number,
  { version, reason, ...chosen }: ChosenPlan & { version: number; reason?: string | undefined },
): Promise<void> {
  await db.transaction(async (tx) => {
    await requireStanding(tx, officer, 'freeze-plan')
    const lot = await lockLot(tx, lotId)
    requireState(lot, 'plan')
    requireVersion(lot, version)
    const lotSize = lot.size
    if (lotSize === null) throw new Error(`lot ${lotId} is received and has no size`)
    const item = await itemOf(tx, lot.itemId)
    if (item.critical && chosen.kind !== 'every-cord') throw new Refusal('invalid', 'plan/critical', {}, 'sampleSize')
    const standard = await standardToFreeze(tx, { ...lot, size: lotSize })
    const checked = checkedPlan(chosen, lotSize)
    const terms = termsOf(item, lotSize)
    const weakerReason = isWeaker({ lotSize, ...checked, ...terms }) ? reasonOf(reason) : null
    const plan = { lotSize, weakerReason, ...checked, ...terms, ...standard }
    await tx.insert(plans).values({ lotId, ...plan, frozenBy: officer.id })
    await changeLot(tx, lot, { state: stateAfter('plan', lot.state) })
    await record(tx, officer, 'lot.planned', `lot/${lotId}`, plan)
  })
}

/** The plan as it is kept; throws Refusal that names the field to mend. */
function checkedPlan(chosen: ChosenPlan, lotSize: number) {
  if ('stages' in chosen) return checkedStages(chosen, lotSize)
  checkNumbers(chosen, lotSize)
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

function reasonOf(said: string | undefined): string {
  const reason = said?.trim() ?? ''
  if (reason === '') throw new Refusal('invalid', 'plan/weaker', {}, 'reason')
  if (reason.length > lengths.reason) throw new Refusal('invalid', 'plan/reason-length', {}, 'reason')
  return reason
}

async function itemOf(tx: Tx, itemId: number) {
  const [item] = await tx.select().from(items).where(eq(items.id, itemId))
  if (!item) throw new Error(`the lot's item ${itemId} is not there`)
  return item
}

function termsOf(item: typeof items.$inferSelect, lotSize: number) {
  const { categoryClaimed, cordLimit, marginalPolicy, crosstalkAccuracy, returnLossAccuracy, catchOf100 } = item
  const { costTestCents, costEscapeCents, costReturnCents, afterRejection } = item
  return {
    tooMany: tooManyIn(item.tooMany, lotSize),
    catchOf100,
    categoryClaimed,
    cordLimit,
    marginalPolicy,
    crosstalkAccuracy,
    returnLossAccuracy,
    costTestCents,
    costEscapeCents,
    costReturnCents,
    afterRejection,
  }
}
