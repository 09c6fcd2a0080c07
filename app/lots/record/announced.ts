// What an announcement of a lot may say, held against the register.
import { eq } from 'drizzle-orm'
import type { Tx } from '../../../db/client.ts'
import { items, suppliers } from '../../../db/schema/register.ts'
import { refuseUnwanted } from '../../kit/characters.ts'
import { type ClauseColumns, checkedClause, type SaidClause } from '../../kit/clause.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import { type FormerColumns, type FormerLot, formerColumns } from '../rules/former.ts'
import { checkPacking, type Packing } from '../rules/packing.ts'
import { checkedFormer } from './former.ts'

export type AnnouncedLot = Packing &
  SaidClause & {
    supplierId: number
    itemId: number
    productionMark: string
    purchaseOrder: string
    /** no series stands behind it, such as a single purchase: the switching rules leave it out */
    isolated: boolean
    /** the lot that it was before it went back, or in whose place it was sent */
    former?: FormerLot | undefined
  }

export type KeptAnnouncement = Omit<AnnouncedLot, 'former' | keyof SaidClause> & FormerColumns & ClauseColumns

/**
 * Returns the announcement as it is kept; throws Refusal that names the first field to mend.
 *
 * @param own number of the lot where it was announced before
 */
export async function checkedAnnouncement(tx: Tx, lot: AnnouncedLot, own?: number): Promise<KeptAnnouncement> {
  const { supplierId, itemId, size, cartons, cordsInCarton, isolated } = lot
  const [supplier] = await tx.select().from(suppliers).where(eq(suppliers.id, supplierId))
  if (!supplier) throw new Refusal('invalid', 'lot/supplier-unknown', {}, 'supplierId')
  const [item] = await tx.select().from(items).where(eq(items.id, itemId))
  if (!item) throw new Refusal('invalid', 'lot/item-unknown', {}, 'itemId')
  checkPacking(lot)
  const productionMark = text('productionMark', 'lot/production-mark', lot.productionMark)
  const purchaseOrder = text('purchaseOrder', 'lot/purchase-order', lot.purchaseOrder)
  const former = lot.former && (await checkedFormer(tx, lot.former, { supplierId, itemId, size, own }))
  const packing = { size, cartons, cordsInCarton }
  const said = { productionMark, purchaseOrder, isolated, ...checkedClause(lot) }
  return { supplierId, itemId, ...packing, ...said, ...formerColumns(former) }
}

function text(field: string, code: 'lot/production-mark' | 'lot/purchase-order', value: string): string {
  const kept = value.trim()
  if (kept === '' || kept.length > lengths.name) throw new Refusal('invalid', code, {}, field)
  refuseUnwanted(field, kept)
  return kept
}
