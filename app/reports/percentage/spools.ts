// Whether cords of one spool stand or fall together, from the cords that carry a spool mark.
import { and, eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { lots } from '../../../db/schema/lots.ts'
import { spoolTallies } from '../../../db/schema/results.ts'
import { cleanRemainder } from '../../statistics/clustering/clean-remainder.ts'
import { type Intraclass, intraclassCorrelation } from '../../statistics/clustering/intraclass.ts'
import type { WhichLots } from '../../suppliers/history.ts'

export type SpoolFacts = {
  /** spools with at least one cord recorded, and the cords that carry a mark */
  spools: number
  cords: number
  /** undefined where no cord carries a mark */
  correlation: Intraclass | undefined
}

/** Counts by spool are kept by the database, so that no cord is read. */
export async function spoolsOf(db: Db, { supplierId, itemId }: WhichLots): Promise<SpoolFacts> {
  const groups = await db
    .select({ sampleSize: spoolTallies.recorded, found: spoolTallies.nonconforming })
    .from(spoolTallies)
    .innerJoin(lots, eq(lots.id, spoolTallies.lotId))
    .where(
      and(
        supplierId === undefined ? undefined : eq(lots.supplierId, supplierId),
        itemId === undefined ? undefined : eq(lots.itemId, itemId),
      ),
    )
  const marked = groups.filter((group) => group.sampleSize > 0)
  const cords = marked.reduce((sum, group) => sum + group.sampleSize, 0)
  return { spools: marked.length, cords, correlation: cords === 0 ? undefined : intraclassCorrelation(marked) }
}

/** Chances that the rest of a lot is clean after a clean sample: units alike, units with a correlation, units one by one. */
export type Remainders = {
  lotSize: number
  sampleSize: number
  alike: number
  oneByOne: number
  estimated: number | undefined
}

/** `fraction` of units nonconforming on average; `correlation` between two units, where one was estimated. */
export function remaindersOf(
  lotSize: number,
  sampleSize: number,
  { fraction, correlation }: { fraction: number; correlation: number | undefined },
): Remainders {
  const remainder = (between: number) => cleanRemainder({ lotSize, sampleSize, fraction, correlation: between })
  return {
    lotSize,
    sampleSize,
    alike: remainder(1),
    oneByOne: remainder(0),
    estimated: correlation === undefined ? undefined : remainder(correlation),
  }
}
