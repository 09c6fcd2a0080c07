// What a lot's cords share, for every reader of them.
import { and, eq } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { decisions, lots, plans } from '../../../db/schema/lots.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { ConformityTerms } from '../rules/conformity.ts'
import { firstFetchOf } from '../rules/first-fetch.ts'
import type { LotRecord } from './lot.ts'

export type CordFrame = {
  id: number
  cordsInCarton: number
  terms: ConformityTerms | undefined
  /** one walks stage after stage: the plan has several, and the rest is not tested too */
  byStage: boolean
  /** first picks of the draw that are walked before the others of their stage: those that the standard's plan asks for */
  firstPicks: number | undefined
}

/** A lot whose cords are asked for: what they share where it was read before, else its number. */
export type LotOfCords = number | CordFrame

/** How they are packed, the terms that judge them, and how one walks from cord to cord. */
export function cordFrameIn({ id, announced, plan, terms, decision, firstFetch }: LotRecord): CordFrame {
  const screened = decision?.outcome === 'screened'
  return {
    id,
    cordsInCarton: announced.cordsInCarton,
    terms: plan && terms,
    byStage: !screened && (plan?.stages.length ?? 1) > 1,
    firstPicks: !screened && firstFetch?.first ? firstFetch.sampleSize : undefined,
  }
}

/** The same, read where it was not before. */
export async function cordFrameOf(db: Db | Tx, of: LotOfCords): Promise<CordFrame> {
  if (typeof of !== 'number') return of
  const [lot] = await db
    .select({ cordsInCarton: lots.cordsInCarton, plan: plans, outcome: decisions.outcome })
    .from(lots)
    .leftJoin(plans, eq(plans.lotId, lots.id))
    .leftJoin(decisions, and(eq(decisions.lotId, lots.id), eq(decisions.after, 'sample')))
    .where(eq(lots.id, of))
  if (!lot) throw new Refusal('missing', 'lot/missing', { lot: of })
  const { cordsInCarton, plan, outcome } = lot
  const screened = outcome === 'screened'
  const byStage = !screened && (plan?.stages.length ?? 1) > 1
  const fetch = plan && firstFetchOf(plan, { recorded: 0, found: 0 })
  const firstPicks = !screened && fetch?.first ? fetch.sampleSize : undefined
  return { id: of, cordsInCarton, terms: plan ?? undefined, byStage, firstPicks }
}
