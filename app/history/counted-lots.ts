// The lots of a supplier as their counts stand, for whatever is asked of its past.
import { and, asc, eq, ne, type SQL, sql } from 'drizzle-orm'
import { alias } from 'drizzle-orm/pg-core'
import type { Db, Tx } from '../../db/client.ts'
import { decisions, lots, plans } from '../../db/schema/lots.ts'
import { items } from '../../db/schema/register.ts'
import { tallies } from '../../db/schema/results.ts'
import { planOnRecount } from '../lots/record/tally.ts'
import type { SampleCount } from '../lots/rules/progress.ts'

type Plan = typeof plans.$inferSelect
type Decision = typeof decisions.$inferSelect

/**
 * A drawn lot with its counts. `decided` is the decision after the sample, with what was recorded and found at that moment;
 * `closing` the one after a screening.
 */
export type CountedLot = Pick<
  Plan,
  'acceptanceNumber' | 'sampleSize' | 'stages' | 'tooMany' | 'costTestCents' | 'costEscapeCents'
> & {
  lotId: number
  supplierId: number
  itemId: number
  item: string
  isolated: boolean
  /** it went back before and came again after a sorting */
  resubmitted: boolean
  replacement: boolean
  planKind: Plan['kind']
  size: number
  sample: SampleCount
  all: SampleCount
  faults: Faults
  notTested: number
  /** cords of the lot that count nowhere, as another is tested in their place */
  standIns: number
  decided: (Pick<Decision, 'outcome' | 'verdict' | 'recorded' | 'found'> & { at: Date }) | undefined
  closing: (Pick<Decision, 'outcome'> & { at: Date }) | undefined
}

/** Of one supplier, of one item, of some series, or everything where none is named. */
export type WhichLots = {
  supplierId?: number | undefined
  itemId?: number | undefined
  series?: readonly { supplierId: number; itemId: number }[]
}

/** All drawn lots but the withdrawn ones, oldest first; from the tallies, so no cord is read. */
export async function countedLots(db: Db | Tx, which: WhichLots): Promise<CountedLot[]> {
  const rows = await rowsOf(db, which)
  return rows.map(({ lot, plan: frozen, tally, decided, closing }) => {
    const { kind, lotSize, ...plan } = planOnRecount(frozen, { recountedSize: tally.recountedSize ?? undefined })
    return {
      ...lot,
      ...plan,
      planKind: kind,
      size: lotSize,
      sample: { recorded: tally.sampleRecorded, found: tally.sampleNonconforming },
      all: {
        recorded: tally.sampleRecorded + tally.restRecorded,
        found: tally.sampleNonconforming + tally.restNonconforming,
      },
      faults: faultsOf(tally),
      notTested: tally.notTested,
      standIns: tally.replaced,
      decided: decided ?? undefined,
      closing: closing ?? undefined,
    }
  })
}

const closing = alias(decisions, 'closing')

const columns = {
  lot: {
    lotId: lots.id,
    supplierId: lots.supplierId,
    itemId: items.id,
    item: items.name,
    isolated: lots.isolated,
    resubmitted: sql<boolean>`${lots.resubmissionOf} is not null`,
    replacement: sql<boolean>`${lots.replacementOf} is not null`,
  },
  plan: {
    kind: plans.kind,
    lotSize: plans.lotSize,
    sampleSize: plans.sampleSize,
    acceptanceNumber: plans.acceptanceNumber,
    stages: plans.stages,
    tooMany: plans.tooMany,
    costTestCents: plans.costTestCents,
    costEscapeCents: plans.costEscapeCents,
  },
  tally: tallies,
  decided: {
    outcome: decisions.outcome,
    at: decisions.decidedAt,
    verdict: decisions.verdict,
    recorded: decisions.recorded,
    found: decisions.found,
  },
  closing: { outcome: closing.outcome, at: closing.decidedAt },
}

function rowsOf(db: Db | Tx, { supplierId, itemId, series }: WhichLots) {
  return db
    .select(columns)
    .from(lots)
    .innerJoin(items, eq(items.id, lots.itemId))
    .innerJoin(plans, eq(plans.lotId, lots.id))
    .innerJoin(tallies, eq(tallies.lotId, lots.id))
    .leftJoin(decisions, and(eq(decisions.lotId, lots.id), eq(decisions.after, 'sample')))
    .leftJoin(closing, and(eq(closing.lotId, lots.id), eq(closing.after, 'screening')))
    .where(
      and(
        supplierId === undefined ? undefined : eq(lots.supplierId, supplierId),
        itemId === undefined ? undefined : eq(lots.itemId, itemId),
        series && inSeries(series),
        ne(lots.state, 'withdrawn'),
      ),
    )
    .orderBy(asc(lots.id))
}

function inSeries(series: readonly { supplierId: number; itemId: number }[]): SQL {
  const pairs = series.map(({ supplierId, itemId }) => sql`(${supplierId}::int, ${itemId}::int)`)
  return sql`(${lots.supplierId}, ${lots.itemId}) in (${sql.join(pairs, sql`, `)})`
}

/** Cords by what is wrong with them, over all recorded ones; a cord with two faults counts under both. */
export type Faults = { crosstalk: number; returnLoss: number; wireMap: number; visual: number; marginal: number }

function faultsOf(tally: typeof tallies.$inferSelect): Faults {
  const { crosstalkShort, returnLossShort, wireMapAtFault, visualAtFault, marginal } = tally
  return {
    crosstalk: crosstalkShort,
    returnLoss: returnLossShort,
    wireMap: wireMapAtFault,
    visual: visualAtFault,
    marginal,
  }
}
