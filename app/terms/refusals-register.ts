// Refusals about suppliers, items and the many lots of either.

type None = Record<never, never>

export type RegisterRefusals = SupplierRefusals & ItemRefusals & HistoryRefusals

type SupplierRefusals = {
  'supplier/missing': { supplier: number }
  'supplier/name-length': None
  'supplier/name-taken': { name: string }
}

/** The clause of a contract that an item, or an order, may carry. */
type ClauseRefusals = { 'clause/number': None; 'clause/text': None }

type ItemRefusals = ClauseRefusals & {
  'item/missing': { item: number }
  'item/unknown': None
  'item/changed-since': None
  'item/name-taken': { name: string }
  'item/name': None
  'item/category': None
  'item/cord-limit': None
  'item/length': None
  'item/accuracy': None
  'item/catch-of-100': None
  'item/count-difference': None
  'item/group-size': { least: number; most: number }
  'item/quality-limit': None
  'item/cost': None
  'item/too-many': None
}

type HistoryRefusals = {
  'series/missing': None
  'series/moved-on': None
  'series/reason': None
  'percentage/percent': None
  'percentage/allowed': None
  'percentage/not-all-tested': { lot: number }
}
