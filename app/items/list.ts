// Items as the pages show them.
import type { ItemTerms } from './define.ts'

export type ItemFacts = ItemTerms & {
  id: number
  /** sent back with a change, so that a stale page is refused */
  version: number
  /** lots of this item, whatever their state */
  lots: number
}
