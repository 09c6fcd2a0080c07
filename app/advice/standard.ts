// What a lot's item and series say besides costs: critical or not, isolated or not, and the standard's plan where one is named.
import { eq } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { items } from '../../db/schema/register.ts'
import { Refusal } from '../kit/refusal.ts'
import { type Demand, demandOf } from '../lots/rules/demand.ts'
import { seriesTermsOf } from '../lots/rules/standard-terms.ts'
import { severityOf } from '../series/frozen.ts'
import { switchingOf } from '../series/inspection.ts'
import { type OutsideSeries, outsideSeries } from '../series/outside.ts'
import type { KnownInspection } from '../series/switching.ts'
import type { StandardWish } from './alternatives.ts'

export type StandardState = {
  critical: boolean
  /** why the lot stands in no series */
  outside: OutsideSeries | undefined
  /** the standard's plan that a resubmitted lot is demanded to meet, where its contract names one */
  tightened: Demand['tightened']
  /** undefined where no contract names a limit, or the lot stands in no series */
  inspection: KnownInspection | undefined
  standard: StandardWish | undefined
}

/**
 * A discontinued series has no plan until the supplier has acted, and an isolated lot belongs to no series; neither does a resubmitted one,
 * which has the tightened plan. Where the state is not known
 * the plan is the strictest that it may ask for.
 */
export async function standardFor(db: Db, lotId: number): Promise<StandardState> {
  const [found] = await db
    .select({ lot: lots, item: items })
    .from(lots)
    .innerJoin(items, eq(items.id, lots.itemId))
    .where(eq(lots.id, lotId))
  if (!found) throw new Refusal('missing', 'lot/missing', { lot: lotId })
  const { lot, item } = found
  const { critical } = item
  const { supplierId, itemId } = lot
  const size = lot.size ?? lot.announcedSize
  const outside = outsideSeries({ ...lot, size })
  const { tightened } = demandOf(item, { size, resubmitted: lot.resubmissionOf !== null })
  const series = outside ? undefined : await switchingOf(db, { supplierId, itemId })
  if (!series) return { critical, outside, tightened, inspection: undefined, standard: tightenedWish(item, tightened) }
  const { inspection } = series.switching
  const wish = { ...series.terms, inspection: severityOf(series.switching) }
  return { critical, outside, tightened, inspection, standard: inspection === 'discontinued' ? undefined : wish }
}

function tightenedWish(item: typeof items.$inferSelect, tightened: Demand['tightened']): StandardWish | undefined {
  const terms = tightened && seriesTermsOf(item)
  return terms && { ...terms, inspection: 'tightened' }
}
