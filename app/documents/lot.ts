// Which lot a document is about, by what limit and plan: the same in every one.
import type { Clause } from '../kit/clause.ts'
import type { LotRecord } from '../lots/record/lot.ts'

type FrozenPlan = NonNullable<LotRecord['plan']>

export type LotInDocument = {
  lotId: number
  supplier: string
  item: string
  purchaseOrder: string
  productionMark: string
  cordLimit: string
  clause: Clause | undefined
  plan: FrozenPlan
}

export function inDocument({ id, supplier, item, announced, terms }: LotRecord, plan: FrozenPlan): LotInDocument {
  return {
    lotId: id,
    supplier: supplier.name,
    item: item.name,
    purchaseOrder: announced.purchaseOrder,
    productionMark: announced.productionMark,
    cordLimit: terms.cordLimit,
    clause: terms.clause,
    plan,
  }
}
