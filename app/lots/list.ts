// The lots by what waits for whom.
import type { LotState, Verdict } from './show.ts'
import type { Turn } from './turn.ts'

export type LotLine = {
  id: number
  supplier: string
  item: string
  purchaseOrder: string
  productionMark: string
  /** counted, or announced before the count */
  size: number
  state: LotState
  verdict: Verdict | undefined
  /** of the sample, or of all cords while the lot is screened */
  recorded: number
  toRecord: number
  /** when the last step was done */
  since: Date
}

export type LotGroup = Turn & { lots: LotLine[] }
export type LotsWaiting = {
  /** in the order of the story; only groups that hold a lot */
  waiting: LotGroup[]
  /** the latest first, at most 200 */
  done: LotLine[]
}
