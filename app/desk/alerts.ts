// What the work list warns of: a supplier's signal, a plan weaker than its item demands, a lot that waits too long.
import { and, eq, inArray, ne } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots, plans } from '../../db/schema/lots.ts'
import { suppliers } from '../../db/schema/register.ts'
import type { SeriesSignal } from '../history/signal-sums.ts'
import { seriesSignals } from '../history/signals.ts'
import { type Run, runOf } from '../kit/task.ts'
import { statesFor } from '../lots/rules/lifecycle.ts'
import type { Act } from '../lots/rules/next-step.ts'
import { type WeakPlan, weakPlansTask } from '../lots/rules/weak-plans.ts'
import type { LotsWaiting } from './work-list.ts'

export type LongWait = { lotId: number; supplier: string; act: Act; since: Date; days: number }

/** Drawn cords of a lot that wait for the manager, whether the bench goes on or not. */
export type OpenRuling = { lotId: number; supplier: string; undecided: number }

export type Alerts = { rulings: OpenRuling[]; signals: SeriesSignal[]; weakPlans: WeakPlan[]; waits: LongWait[] }

/** Days without a step after which somebody is reminded (common practice, no source). */
export const longWaitDays = 7

export async function alertsOf(db: Db, run: Run, { waiting }: LotsWaiting, now: Date): Promise<Alerts> {
  return {
    rulings: waiting.flatMap(({ lots: group }) =>
      group.flatMap(({ id: lotId, supplier, undecided }) => (undecided > 0 ? [{ lotId, supplier, undecided }] : [])),
    ),
    signals: await seriesSignals(db, run, now),
    weakPlans: await weakPlans(db, run),
    waits: waiting.flatMap(({ act, lots: group }) =>
      group.flatMap(({ id, supplier, since }) => {
        const days = Math.floor((now.getTime() - since.getTime()) / 86_400_000)
        return days >= longWaitDays ? [{ lotId: id, supplier, act, since, days }] : []
      }),
    ),
  }
}

/** Lots whose plan is frozen and not decided on yet. Testing every cord lets none through. */
async function weakPlans(db: Db, run: Run): Promise<WeakPlan[]> {
  const frozen = await db
    .select({
      lotId: plans.lotId,
      supplier: suppliers.name,
      lotSize: plans.lotSize,
      stages: plans.stages,
      tooMany: plans.tooMany,
      catchOf100: plans.catchOf100,
    })
    .from(lots)
    .innerJoin(plans, eq(plans.lotId, lots.id))
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .where(and(inArray(lots.state, statesFor('withdraw')), ne(plans.kind, 'every-cord')))
    .orderBy(lots.id)
  const pieces = frozen.reduce((sum, { lotSize, stages }) => sum + stages.length + Math.floor(lotSize / 1000), 0)
  return runOf(pieces, run)(weakPlansTask, frozen)
}
