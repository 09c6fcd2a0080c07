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
  if (!supplier) throw new Refusal('invalid', 'Choose a supplier of the register', 'supplierId')
  const [item] = await tx.select().from(items).where(eq(items.id, itemId))
  if (!item) throw new Refusal('invalid', 'Choose an item of the register', 'itemId')
  checkPacking(lot)
  const productionMark = text('productionMark', 'production mark', lot.productionMark)
  const purchaseOrder = text('purchaseOrder', 'purchase-order reference', lot.purchaseOrder)
  return { supplierId, itemId, size, cartons, cordsInCarton, productionMark, purchaseOrder, isolated }
}

/** A lot fills all its cartons but the last, which holds at least one cord: places follow from that. */
export function checkPacking({ size, cartons, cordsInCarton }: Packing): void {
  checkSize(size)
  whole('cartons', 'A lot has 1 to 1,000,000 cartons', cartons)
  whole('cordsInCarton', 'A carton holds 1 to 1,000,000 cords', cordsInCarton)
  const needed = Math.ceil(size / cordsInCarton)
  if (cartons !== needed)
    throw new Refusal(
      'invalid',
      `${size} cords at ${cordsInCarton} in a carton fill ${needed} cartons, not ${cartons}`,
      'cartons',
    )
}

export function checkSize(size: number): void {
  whole('size', 'A lot has 1 to 1,000,000 cords', size)
}

function whole(field: string, sentence: string, value: number): void {
  if (!Number.isInteger(value) || value < 1 || value > largestLot) throw new Refusal('invalid', sentence, field)
}

function text(field: string, what: string, value: string): string {
  const kept = value.trim()
  if (kept === '' || kept.length > 120) throw new Refusal('invalid', `Give the ${what} (1 to 120 characters)`, field)
  refuseUnwanted(field, kept)
  return kept
}
