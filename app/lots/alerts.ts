// What the work list warns of: a supplier's signal, a plan weaker than its item demands, a lot that waits too long.
import { eq, inArray } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots, plans } from '../../db/schema/lots.ts'
import { suppliers } from '../../db/schema/register.ts'
import { exceeds } from '../statistics/check.ts'
import { acceptanceOfLot } from '../statistics/plans/measures.ts'
import { type SeriesSignal, seriesSignals } from '../suppliers/signals.ts'
import type { LotsWaiting } from './list.ts'
import type { Act } from './turn.ts'

export type WeakPlan = {
  lotId: number
  supplier: string
  tooMany: number
  /** chance that the frozen plan accepts a lot with exactly too many */
  acceptance: number
  /** of 100 such lots, how many the item wants caught */
  catchOf100: string
}

export type LongWait = { lotId: number; supplier: string; act: Act; since: Date; days: number }

export type Alerts = { signals: SeriesSignal[]; weakPlans: WeakPlan[]; waits: LongWait[] }

/** Days without a step after which somebody is reminded (common practice, no source). */
export const longWaitDays = 7

export async function alertsOf(db: Db, { waiting }: LotsWaiting, now: Date): Promise<Alerts> {
  return {
    signals: await seriesSignals(db, now),
    weakPlans: await weakPlans(db),
    waits: waiting.flatMap(({ act, lots: group }) =>
      group.flatMap(({ id, supplier, since }) => {
        const days = Math.floor((now.getTime() - since.getTime()) / 86_400_000)
        return days >= longWaitDays ? [{ lotId: id, supplier, act, since, days }] : []
      }),
    ),
  }
}

/** Lots whose plan is frozen and not decided on yet. Testing every cord lets none through. */
async function weakPlans(db: Db): Promise<WeakPlan[]> {
  const frozen = await db
    .select({ plan: plans, supplier: suppliers.name })
    .from(lots)
    .innerJoin(plans, eq(plans.lotId, lots.id))
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .where(inArray(lots.state, ['planned', 'drawn']))
    .orderBy(lots.id)
  return frozen.flatMap(({ plan, supplier }) => {
    if (plan.kind === 'every-cord') return []
    const { lotId, lotSize, tooMany, catchOf100 } = plan
    const acceptance = acceptanceOfLot(plan, { lotSize, nonconforming: tooMany })
    return exceeds(acceptance, (100 - Number(catchOf100)) / 100)
      ? [{ lotId, supplier, tooMany, acceptance, catchOf100 }]
      : []
  })
}
