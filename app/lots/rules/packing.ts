// What an announcement of a lot may say.
import { eq } from 'drizzle-orm'
import type { Tx } from '../../../db/client.ts'
import { items, suppliers } from '../../../db/schema/register.ts'
import { refuseUnwanted } from '../../kit/characters.ts'
import { Refusal } from '../../kit/refusal.ts'

const largestLot = 1_000_000

/** size: cords; cordsInCarton: in a full carton, of which the last may hold fewer. */
export type Packing = { size: number; cartons: number; cordsInCarton: number }

export type AnnouncedLot = Packing & {
  supplierId: number
  itemId: number
  productionMark: string
  purchaseOrder: string
  /** no series stands behind it, such as a single purchase or a lot sent again: the switching rules leave it out */
  isolated: boolean
}

/** Returns the announcement as it is kept; throws Refusal that names the first field to mend. */
export async function checkedAnnouncement(tx: Tx, lot: AnnouncedLot): Promise<AnnouncedLot> {
  const { supplierId, itemId, size, cartons, cordsInCarton, isolated } = lot
  const [supplier] = await tx.select().from(suppliers).where(eq(suppliers.id, supplierId))
  if (!supplier) throw new Refusal('invalid', 'lot/supplier-unknown', {}, 'supplierId')
  const [item] = await tx.select().from(items).where(eq(items.id, itemId))
  if (!item) throw new Refusal('invalid', 'lot/item-unknown', {}, 'itemId')
  checkPacking(lot)
  const productionMark = text('productionMark', 'lot/production-mark', lot.productionMark)
  const purchaseOrder = text('purchaseOrder', 'lot/purchase-order', lot.purchaseOrder)
  return { supplierId, itemId, size, cartons, cordsInCarton, productionMark, purchaseOrder, isolated }
}

/** A lot fills all its cartons but the last, which holds at least one cord: places follow from that. */
export function checkPacking({ size, cartons, cordsInCarton }: Packing): void {
  checkSize(size)
  whole('cartons', 'lot/cartons', cartons)
  whole('cordsInCarton', 'lot/cords-in-carton', cordsInCarton)
  const needed = Math.ceil(size / cordsInCarton)
  if (cartons !== needed)
    throw new Refusal('invalid', 'lot/packing', { size, cordsInCarton, needed, cartons }, 'cartons')
}

export function checkSize(size: number): void {
  whole('size', 'lot/size', size)
}

function whole(field: string, code: 'lot/size' | 'lot/cartons' | 'lot/cords-in-carton', value: number): void {
  if (!Number.isInteger(value) || value < 1 || value > largestLot) throw new Refusal('invalid', code, {}, field)
}

function text(field: string, code: 'lot/production-mark' | 'lot/purchase-order', value: string): string {
  const kept = value.trim()
  if (kept === '' || kept.length > 120) throw new Refusal('invalid', code, {}, field)
  refuseUnwanted(field, kept)
  return kept
}
