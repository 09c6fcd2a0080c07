// The example: an invented firm, its people, suppliers, items and lots. Every name and number is made up.

import type { PlanRule } from '../app/lots/rules/plan-rule.ts'
import type { ItemTerms } from '../app/register/item-terms.ts'
import type { Disposition, PlanKind } from '../app/terms/lot.ts'
import { ample, mixing, oversold, shifted, spools, steady } from './makers.ts'
import type { Process } from './model.ts'

export const firmName = 'Harbour Lantern Networks'

/** The example's people sign decisions with this; the sign-in page of the example shows it. */
export const examplePassword = 'lantern-and-tide'

export const scenarioPeople = {
  officer: 'Odile Marsh',
  inspector: 'Ivo Tarn',
  manager: 'Mara Quill',
} as const

export const scenarioItems = {
  rack: {
    name: 'Rack lead, 1.5 m',
    categoryClaimed: 'Category 6A',
    cordLimit: 'Category 6A modular cord, 1.5 m, edition named in the order',
    lengthMetres: '1.5',
    marginalPolicy: 'strict',
    crosstalkAccuracy: '0.9',
    returnLossAccuracy: '0.7',
    tooMany: '1.5%',
    catchOf100: '90',
    costTestCents: 160,
    costEscapeCents: 9500,
    costReturnCents: 32000,
    critical: false,
    acceptanceQualityLimit: '0.65',
    inspectionLevel: 'II',
    countDifferencePercent: '2',
    afterRejection: 'return',
    undecidedCounts: 'manager-rules',
    clauseNumber: '4.2',
    clauseText:
      'The buyer tests cords drawn at random from each lot. A lot with more nonconforming cords than the plan allows goes back at the supplier’s cost.',
    groupSize: 30,
  },
  desk: {
    name: 'Desk lead, 4 m',
    categoryClaimed: 'Category 6',
    cordLimit: 'Category 6 modular cord, 4 m, edition named in the order',
    lengthMetres: '4',
    marginalPolicy: 'lenient',
    crosstalkAccuracy: '0.9',
    returnLossAccuracy: '0.7',
    tooMany: '8',
    catchOf100: '90',
    costTestCents: 140,
    costEscapeCents: 4200,
    costReturnCents: 26000,
    critical: false,
    acceptanceQualityLimit: null,
    inspectionLevel: 'II',
    countDifferencePercent: '2',
    afterRejection: 'return',
    undecidedCounts: 'manager-rules',
    groupSize: 30,
  },
} as const satisfies Record<string, ItemTerms>

export type ItemName = keyof typeof scenarioItems

/** How far a lot of the example has come, and what the manager did with it. */
export type ScenarioProgress =
  | { to: 'announced' | 'received' | 'planned' | 'drawn' | 'half' | 'recorded' }
  | { to: 'screening' | 'sorted'; reason: string }
  | { to: 'decided'; outcome: Extract<Disposition, 'accepted' | 'returned'>; reason: string }

export type ExampleLot = {
  supplier: string
  item: ItemName
  size: number
  cartons: number
  cordsInCarton: number
  mark: string
  order: string
  /** zero-acceptance sizes follow from the item's demand; `share` is of the lot, in percent */
  plan: { kind: PlanKind; share?: number; acceptanceNumber?: number }
  /** the order of the lot that went back, and what the supplier says was sorted */
  resubmissionOf?: { order: string; declaredSorting: string }
  /** chosen at announcement: the plan freezes with the receipt */
  rule?: PlanRule
  cordsOfSpool: number
  processOf: (carton: number) => Process
  progress: ScenarioProgress
}

const everyCord = { kind: 'every-cord' } as const
const zero = { kind: 'zero-acceptance' } as const
const pack = { cordsInCarton: 24, cordsOfSpool: 40 }

const heron = { supplier: 'Brass Heron Leads', item: 'rack', ...pack, processOf: () => steady } as const
const thimble = (shift: number) =>
  ({ supplier: 'Tidewater Thimble', item: 'rack', ...pack, processOf: () => shifted(shift) }) as const
const kilns = { supplier: 'Two Kilns Patch', item: 'rack', ...pack, processOf: mixing } as const
const loom = { supplier: 'Long Loom Works', item: 'desk', ...pack, processOf: () => spools } as const
const fern = { supplier: 'Gilded Fern Supply', item: 'rack', ...pack, processOf: () => oversold } as const
/** Cable of many spools: no two neighbours share one. */
const wren = {
  ...({ supplier: 'Slate Wren Leads', item: 'desk', mark: 'SW 9' } as const),
  ...{ plan: zero, processOf: () => ample },
  ...{ cordsInCarton: 24, cordsOfSpool: 1 },
} as const
const lark = { supplier: 'Paper Lark Cords', item: 'desk', ...pack, processOf: () => shifted(-0.6) } as const

const followed = { to: 'decided', outcome: 'accepted', reason: '' } as const
const back = { to: 'decided', outcome: 'returned', reason: '' } as const

const zeroAtReceipt = { kind: 'zero-acceptance' } as const

/** Made up, to show every situation once; in the order of their announcement. */
export const scenarioLots: ExampleLot[] = [
  { ...heron, size: 360, cartons: 15, mark: 'BH 2604', order: 'PO 7011', plan: everyCord, progress: followed },
  { ...kilns, size: 312, cartons: 13, mark: 'TK 11', order: 'PO 7012', plan: everyCord, progress: followed },
  { ...thimble(-0.5), size: 288, cartons: 12, mark: 'TT A', order: 'PO 7013', plan: everyCord, progress: followed },
  { ...loom, size: 240, cartons: 10, mark: 'LL 3', order: 'PO 7014', plan: everyCord, progress: followed },
  { ...heron, size: 600, cartons: 25, mark: 'BH 2609', order: 'PO 7015', plan: zero, progress: followed },
  {
    ...fern,
    size: 192,
    cartons: 8,
    mark: 'GF 1',
    order: 'PO 7016',
    plan: { kind: 'percentage', share: 10 },
    progress: back,
  },
  {
    ...kilns,
    size: 336,
    cartons: 14,
    mark: 'TK 14',
    order: 'PO 7017',
    plan: zero,
    progress: { to: 'sorted', reason: 'The cords are needed this month: the conforming ones are kept' },
  },
  { ...thimble(-0.9), size: 60, cartons: 3, mark: 'TT B', order: 'PO 7033', plan: everyCord, progress: followed },
  { ...heron, size: 60, cartons: 3, mark: 'BH 2611', order: 'PO 7034', plan: zero, progress: followed },
  { ...wren, size: 120, cartons: 5, order: 'PO 7035', progress: followed },
  { ...thimble(-1.3), size: 300, cartons: 13, mark: 'TT C', order: 'PO 7018', plan: everyCord, progress: followed },
  {
    ...heron,
    size: 480,
    cartons: 20,
    mark: 'BH 2613',
    order: 'PO 7019',
    plan: zero,
    progress: {
      to: 'sorted',
      reason: 'One cord of a steady maker fell short: all the others are tested before anything goes back',
    },
  },
  { ...kilns, size: 96, cartons: 4, mark: 'TK 15', order: 'PO 7036', plan: everyCord, progress: followed },
  { ...wren, size: 120, cartons: 5, order: 'PO 7037', progress: followed },
  { ...heron, size: 3000, cartons: 125, mark: 'BH 2614', order: 'PO 7038', plan: zero, progress: followed },
  { ...loom, size: 264, cartons: 11, mark: 'LL 5', order: 'PO 7020', plan: everyCord, progress: followed },
  { ...thimble(-2), size: 288, cartons: 12, mark: 'TT E', order: 'PO 7021', plan: everyCord, progress: followed },
  { ...wren, size: 120, cartons: 5, order: 'PO 7039', progress: followed },
  { ...thimble(-2.3), size: 120, cartons: 5, mark: 'TT F', order: 'PO 7040', plan: everyCord, progress: followed },
  { ...loom, size: 1200, cartons: 50, mark: 'LL 6', order: 'PO 7041', plan: everyCord, progress: followed },
  { ...kilns, size: 288, cartons: 12, mark: 'TK 19', order: 'PO 7022', plan: zero, progress: back },
  {
    ...fern,
    size: 144,
    cartons: 6,
    mark: 'GF 2',
    order: 'PO 7023',
    plan: zero,
    progress: back,
  },
  {
    ...thimble(-2.7),
    size: 240,
    cartons: 10,
    mark: 'TT G',
    order: 'PO 7024',
    plan: zero,
    progress: { to: 'sorted', reason: 'Sorted at the supplier’s cost, as the contract allows' },
  },
  { ...wren, size: 120, cartons: 5, order: 'PO 7042', progress: followed },
  { ...heron, size: 384, cartons: 16, mark: 'BH 2618', order: 'PO 7025', plan: zero, progress: followed },
  { ...loom, size: 3000, cartons: 125, mark: 'LL 7', order: 'PO 7043', plan: everyCord, progress: followed },
  { ...wren, size: 120, cartons: 5, order: 'PO 7044', progress: followed },
  { ...loom, size: 216, cartons: 9, mark: 'LL 8', order: 'PO 7026', plan: zero, progress: { to: 'recorded' } },
  {
    ...kilns,
    size: 216,
    cartons: 9,
    mark: 'TK 22',
    order: 'PO 7027',
    plan: zero,
    progress: { to: 'screening', reason: 'The next delivery is six weeks away' },
  },
  { ...lark, size: 240, cartons: 10, mark: 'first', order: 'PO 7028', plan: zero, progress: { to: 'half' } },
  { ...heron, size: 432, cartons: 18, mark: 'BH 2621', order: 'PO 7029', plan: zero, progress: { to: 'drawn' } },
  { ...thimble(-3.1), size: 264, cartons: 11, mark: 'TT J', order: 'PO 7030', plan: zero, progress: { to: 'planned' } },
  {
    ...{ ...loom, size: 480, cartons: 20, mark: 'LL 9', order: 'PO 7045' },
    ...{ plan: zero, rule: zeroAtReceipt, progress: { to: 'planned' } },
  },
  {
    ...{ ...thimble(-3.2), size: 240, cartons: 10, mark: 'TT K', order: 'PO 7046' },
    ...{ plan: zero, rule: zeroAtReceipt, progress: { to: 'announced' } },
  },
  { ...wren, size: 480, cartons: 20, order: 'PO 7047', progress: { to: 'received' } },
  {
    ...{ ...kilns, size: 276, cartons: 12, mark: 'TK 19', order: 'PO 7048', plan: zero, progress: { to: 'received' } },
    resubmissionOf: { order: 'PO 7022', declaredSorting: 'Every carton of the second workshop was tested and sorted' },
  },
  { ...heron, size: 360, cartons: 15, mark: 'BH 2624', order: 'PO 7031', plan: zero, progress: { to: 'received' } },
  { ...lark, size: 120, cartons: 5, mark: 'second', order: 'PO 7032', plan: zero, progress: { to: 'announced' } },
]
