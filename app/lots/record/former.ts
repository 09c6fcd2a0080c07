// The lots before and after a lot: the one that it was or replaces, and those that it came again as or was replaced by.
import { and, asc, eq, ne, or, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { lots, plans } from '../../../db/schema/lots.ts'
import { allOf } from '../../kit/all-of.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Stage } from '../../statistics/plans/plan.ts'
import { endsBefore, type FormerKind, formerKinds, type LotState } from '../../terms/lot.ts'
import { type FormerColumns, type FormerLot, formerIn } from '../rules/former.ts'

/** A plan under which such a lot was inspected before, as it was frozen. */
export type FormerPlan = {
  kind: (typeof plans.$inferSelect)['kind']
  lotSize: number
  tooMany: number
  stages: readonly Stage[]
}

export type LotLinks = {
  /** undefined where the lot was not here before */
  former: (FormerLot & { plan: FormerPlan }) | undefined
  /** the oldest first */
  later: { kind: FormerKind; lotId: number; state: LotState }[]
  /** what may be announced of the lot as it stands */
  again: FormerKind[]
}

export async function linksOf(db: Db | Tx, lotId: number): Promise<LotLinks> {
  const [own, later] = await allOf([ownOf(db, lotId), laterOf(db, lotId)])
  const former = own && formerIn(own.lot)
  return {
    // a lot that went back had a plan
    former: former && own.plan ? { ...former, plan: own.plan } : undefined,
    later,
    again: own ? openAgain(own.lot, later) : [],
  }
}

async function laterOf(db: Db | Tx, lotId: number): Promise<LotLinks['later']> {
  const rows = await db
    .select({ lotId: lots.id, state: lots.state, resubmissionOf: lots.resubmissionOf })
    .from(lots)
    .where(and(or(eq(lots.resubmissionOf, lotId), eq(lots.replacementOf, lotId)), wasThere()))
    .orderBy(asc(lots.id))
  return rows.map(({ resubmissionOf, ...later }) => ({
    kind: resubmissionOf === null ? 'replacement' : 'resubmission',
    ...later,
  }))
}

/** A lot that was withdrawn before it came was never there. */
function wasThere() {
  return sql`(${lots.size} is not null or ${lots.state} <> 'withdrawn')`
}

async function ownOf(db: Db | Tx, lotId: number) {
  const { kind, lotSize, tooMany, stages } = plans
  const { state, resubmissionOf, declaredSorting, replacementOf } = lots
  const [row] = await db
    .select({
      lot: { state, resubmissionOf, declaredSorting, replacementOf },
      plan: { kind, lotSize, tooMany, stages },
    })
    .from(lots)
    .leftJoin(plans, sql`${plans.lotId} = coalesce(${resubmissionOf}, ${replacementOf})`)
    .where(eq(lots.id, lotId))
  return row
}

/** A lot that went back is resubmitted once, and replaced as often as deliveries come in its place. */
function openAgain(
  { state, resubmissionOf }: FormerColumns & { state: LotState },
  later: LotLinks['later'],
): FormerKind[] {
  const resubmitted = resubmissionOf !== null || later.some(({ kind }) => kind === 'resubmission')
  return formerKinds.filter(
    (kind) => endsBefore[kind].some((end) => end === state) && !(kind === 'resubmission' && resubmitted),
  )
}

/** The lot that is announced. */
type Comes = { supplierId: number; itemId: number; size: number; own: number | undefined }

/**
 * What an announcement says of the lot before: it went back, from this supplier, of this item, and is resubmitted once, with no more cords. The lot before is
 * locked, so that of two announcements at once the second finds the first. `own`: the lot itself where it is corrected.
 */
export async function checkedFormer(
  tx: Tx,
  former: FormerLot,
  { supplierId, itemId, size, own }: Comes,
): Promise<FormerLot> {
  const { kind, lotId } = former
  const refuse = refusalOf(lotId)
  const [before] = await tx.select().from(lots).where(eq(lots.id, lotId)).for('update')
  if (!before) throw refuse('former/missing')
  if (before.supplierId !== supplierId || before.itemId !== itemId) throw refuse('former/other-series')
  if (!endsBefore[kind].some((state) => state === before.state)) throw refuse('former/not-sent-back')
  if (kind === 'replacement') return { kind, lotId }
  if (before.resubmissionOf !== null || (await resubmittedAs(tx, lotId, own))) throw refuse('former/resubmitted-before')
  const most = before.size ?? before.announcedSize
  if (size > most) throw new Refusal('invalid', 'former/larger', { lot: lotId, size: most }, 'size')
  return { kind, lotId, sorting: sortingOf(former.sorting) }
}

function refusalOf(lot: number) {
  return (code: `former/${'missing' | 'other-series' | 'not-sent-back' | 'resubmitted-before'}`) =>
    new Refusal('invalid', code, { lot }, 'formerLot')
}

/** Whether another lot is this one, sent again; one that was withdrawn before it came was never there. */
async function resubmittedAs(tx: Tx, lotId: number, own: number | undefined): Promise<boolean> {
  const [other] = await tx
    .select({ id: lots.id })
    .from(lots)
    .where(and(eq(lots.resubmissionOf, lotId), own === undefined ? undefined : ne(lots.id, own), wasThere()))
  return other !== undefined
}

function sortingOf(said: string): string {
  const sorting = said.trim()
  if (sorting === '' || sorting.length > lengths.reason)
    throw new Refusal('invalid', 'former/sorting', {}, 'declaredSorting')
  return sorting
}
