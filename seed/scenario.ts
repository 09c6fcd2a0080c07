// The example: an invented firm, its people, suppliers, items and lots. Every name and number is made up.

import type { ItemTerms } from '../app/register/item-terms.ts'
import type { Disposition, PlanKind } from '../app/terms/lot.ts'
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
  cordsOfSpool: number
  processOf: (carton: number) => Process
  progress: ScenarioProgress
}

const steady: Process = {
  crosstalk: { mean: 6.3, spread: 1.5 },
  returnLoss: { mean: 5.4, spoolSpread: 0.3, endSpread: 0.9 },
  wireMapFault: 0.0003,
  visualFault: 0.0005,
}

const shifted = (crosstalk: number, returnLoss = 0): Process => ({
  ...steady,
  crosstalk: { ...steady.crosstalk, mean: steady.crosstalk.mean + crosstalk },
  returnLoss: { ...steady.returnLoss, mean: steady.returnLoss.mean + returnLoss },
})

/** Two workshops behind one name: every third carton comes from the weaker one. */
const mixing = (carton: number): Process => (carton % 3 === 0 ? shifted(-2.9) : steady)

/** The plugs are sound; what varies is the cable of a whole spool. */
const spools: Process = {
  ...steady,
  returnLoss: { mean: 2.6, spoolSpread: 2.4, endSpread: 0.3 },
}

/** Sold as Category 6A, built like the category below: nearly all fall short. */
const oversold = shifted(-6.3, -1.2)

const everyCord = { kind: 'every-cord' } as const
const zero = { kind: 'zero-acceptance' } as const
const pack = { cordsInCarton: 24, cordsOfSpool: 40 }

const heron = { supplier: 'Brass Heron Leads', item: 'rack', ...pack, processOf: () => steady } as const
const thimble = (shift: number) =>
  ({ supplier: 'Tidewater Thimble', item: 'rack', ...pack, processOf: () => shifted(shift) }) as const
const kilns = { supplier: 'Two Kilns Patch', item: 'rack', ...pack, processOf: mixing } as const
const loom = { supplier: 'Long Loom Works', item: 'desk', ...pack, processOf: () => spools } as const
const fern = { supplier: 'Gilded Fern Supply', item: 'rack', ...pack, processOf: () => oversold } as const
const lark = { supplier: 'Paper Lark Cords', item: 'desk', ...pack, processOf: () => shifted(-0.6) } as const

const followed = { to: 'decided', outcome: 'accepted', reason: '' } as const
const back = { to: 'decided', outcome: 'returned', reason: '' } as const

/** In the order of their announcement. */
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
  { ...loom, size: 264, cartons: 11, mark: 'LL 5', order: 'PO 7020', plan: everyCord, progress: followed },
  { ...thimble(-2), size: 288, cartons: 12, mark: 'TT E', order: 'PO 7021', plan: everyCord, progress: followed },
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
  { ...heron, size: 384, cartons: 16, mark: 'BH 2618', order: 'PO 7025', plan: zero, progress: followed },
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
  { ...heron, size: 360, cartons: 15, mark: 'BH 2624', order: 'PO 7031', plan: zero, progress: { to: 'received' } },
  { ...lark, size: 120, cartons: 5, mark: 'second', order: 'PO 7032', plan: zero, progress: { to: 'announced' } },
]
