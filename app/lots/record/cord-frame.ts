// What a lot's cords share, for every reader of them.
import { and, eq } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { decisions, lots, plans } from '../../../db/schema/lots.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { ConformityTerms } from '../rules/conformity.ts'
import type { LotRecord } from './lot.ts'

export type CordFrame = {
  id: number
  cordsInCarton: number
  terms: ConformityTerms | undefined
  /** one walks stage after stage: the plan has several, and the rest is not tested too */
  byStage: boolean
}

/** A lot whose cords are asked for: what they share where it was read before, else its number. */
export type LotOfCords = number | CordFrame

/** How they are packed, the terms that judge them, and how one walks from cord to cord. */
export function cordFrameIn({ id, announced, plan, terms, decision }: LotRecord): CordFrame {
  return {
    id,
    cordsInCarton: announced.cordsInCarton,
    terms: plan && terms,
    byStage: decision?.outcome !== 'screened' && (plan?.stages.length ?? 1) > 1,
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
  const byStage = outcome !== 'screened' && (plan?.stages.length ?? 1) > 1
  return { id: of, cordsInCarton, terms: plan ?? undefined, byStage }
}
