// What a lot's item and series say besides costs: critical or not, isolated or not, and the standard's plan where one is named.
import { eq } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { items } from '../../db/schema/register.ts'
import { switchingOf } from '../history/series/inspection.ts'
import type { SeriesInspection } from '../history/series/switching.ts'
import { seriesTermsOf } from '../history/series/terms.ts'
import { Refusal } from '../kit/refusal.ts'
import type { StandardWish } from './alternatives.ts'

export type StandardState = {
  critical: boolean
  isolated: boolean
  /** undefined where no contract names a limit */
  inspection: SeriesInspection | undefined
  standard: StandardWish | undefined
}

/** A discontinued series has no plan until the supplier has acted, and an isolated lot belongs to no series. */
export async function standardFor(db: Db, lotId: number): Promise<StandardState> {
  const [found] = await db
    .select({ lot: lots, item: items })
    .from(lots)
    .innerJoin(items, eq(items.id, lots.itemId))
    .where(eq(lots.id, lotId))
  if (!found) throw new Refusal('missing', 'lot/missing', { lot: lotId })
  const { lot, item } = found
  const { critical } = item
  const terms = seriesTermsOf(item)
  if (!terms || lot.isolated) return { critical, isolated: lot.isolated, inspection: undefined, standard: undefined }
  const { state } = await switchingOf(db, { supplierId: lot.supplierId, itemId: lot.itemId })
  const { inspection } = state
  const standard = inspection === 'discontinued' ? undefined : { ...terms, inspection }
  return { critical, isolated: false, inspection, standard }
}
