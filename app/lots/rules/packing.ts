// How a lot is packed: its size, its cartons, and how many cords are in each.
import { largestLot } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'

/** size: cords; cordsInCarton: in a full carton, of which the last may hold fewer. */
export type Packing = { size: number; cartons: number; cordsInCarton: number }

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
