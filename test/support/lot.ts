// A lot brought to any step of its record through the domain's own verbs.
import { randomUUID } from 'node:crypto'
import { announceLot } from '../../app/lots/acts/announce.ts'
import { drawLot } from '../../app/lots/acts/draw.ts'
import { freezePlan } from '../../app/lots/acts/freeze-plan.ts'
import { openToFile, recordFile } from '../../app/lots/acts/import-results.ts'
import { receiveLot } from '../../app/lots/acts/receive.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import type { Signature } from '../../app/lots/acts/sign.ts'
import type { ChosenPlan } from '../../app/lots/acts/write-plan.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { drawnInOrder } from '../../app/lots/record/pick-list.ts'
import type { TestedEntry } from '../../app/lots/rules/entry.ts'
import { readResultsText } from '../../app/lots/rules/results-file.ts'
import { defineItem } from '../../app/register/define-item.ts'
import type { ItemTerms } from '../../app/register/item-terms.ts'
import { registerSupplier } from '../../app/register/register-supplier.ts'
import type { Person } from '../../app/terms/person.ts'
import type { Db } from '../../db/client.ts'
import type { TestDatabase } from './database.ts'
import { PASSWORD, type ThreePeople } from './people.ts'
import { rowAloud } from './refusals.ts'

export const terms: ItemTerms = {
  name: 'Grey cord',
  categoryClaimed: 'Category 6A',
  cordLimit: 'the cord limit of the contract, second edition',
  lengthMetres: '2',
  marginalPolicy: 'strict',
  crosstalkAccuracy: '1.2',
  returnLossAccuracy: '1.5',
  tooMany: '3',
  catchOf100: '95',
  costTestCents: 140,
  costEscapeCents: 9000,
  costReturnCents: 20_000,
  critical: false,
  acceptanceQualityLimit: null,
  inspectionLevel: 'II',
  countDifferencePercent: '2',
  afterRejection: 'return',
  undecidedCounts: 'manager-rules',
  groupSize: 30,
}

export const clear: TestedEntry = {
  kind: 'tested',
  crosstalkMargin: '4.10',
  returnLossMargin: '3.7',
  wireMap: 'in-order',
  visual: 'in-order',
  carton: undefined,
  spool: undefined,
  testerSerial: undefined,
}
export const failing: TestedEntry = { ...clear, returnLossMargin: '-0.04' }

export type Wanted = { size?: number; plan?: ChosenPlan; terms?: Partial<ItemTerms>; seed?: string }

/** A lot that is announced, 10 cords in a carton. */
export async function announcedLot(db: Db, { officer }: ThreePeople, wanted: Wanted = {}): Promise<number> {
  const size = wanted.size ?? 24
  const name = `${terms.name} ${randomUUID()}`
  const supplierId = await registerSupplier(db, officer, { key: randomUUID(), name: `Supplier ${randomUUID()}` })
  const itemId = await defineItem(db, officer, { ...terms, name, ...wanted.terms, key: randomUUID() })
  return announceLot(db, officer, {
    key: randomUUID(),
    supplierId,
    itemId,
    size,
    cartons: Math.ceil(size / 10),
    cordsInCarton: 10,
    productionMark: 'W31',
    purchaseOrder: 'PO 7',
    isolated: false,
  })
}

export async function receivedLot(db: Db, three: ThreePeople, wanted: Wanted = {}): Promise<number> {
  const lotId = await announcedLot(db, three, wanted)
  const { version, announced } = await factsOf(db, lotId)
  await receiveLot(db, three.inspector, lotId, { ...announced, version, note: '' })
  return lotId
}

export async function plannedLot(db: Db, three: ThreePeople, wanted: Wanted = {}): Promise<number> {
  const lotId = await receivedLot(db, three, wanted)
  const { version } = await factsOf(db, lotId)
  const plan = wanted.plan ?? { kind: 'single', sampleSize: 6, acceptanceNumber: 1 }
  await freezePlan(db, three.officer, lotId, { version, reason: 'for the test', ...plan })
  return lotId
}

export async function drawnLot(db: Db, three: ThreePeople, wanted: Wanted = {}): Promise<number> {
  const lotId = await plannedLot(db, three, wanted)
  await drawLot(db, three.inspector, lotId, () => wanted.seed ?? '271828182845904523536028')
  return lotId
}

export type OneSeries = { supplierId: number; itemId: number }

/** One more lot of a series, drawn; without one the lot makes it. Received first and joined then, as lots are made one supplier each. */
export async function drawnInSeries(
  { db, owner }: Pick<TestDatabase, 'db' | 'owner'>,
  three: ThreePeople,
  wanted: Wanted & { plan: ChosenPlan },
  series?: OneSeries,
): Promise<OneSeries & { lotId: number }> {
  const lotId = await receivedLot(db, three, wanted)
  if (series)
    await owner`update lots set supplier_id = ${series.supplierId}, item_id = ${series.itemId} where id = ${lotId}`
  const { version, supplier, item } = await factsOf(db, lotId)
  await freezePlan(db, three.officer, lotId, { version, reason: 'for the test', ...wanted.plan })
  await drawLot(db, three.inspector, lotId)
  return { lotId, supplierId: supplier.id, itemId: item.id }
}

/** Positions drawn and not recorded, in walking order. */
export async function toTest(db: Db, lotId: number): Promise<number[]> {
  const cords = await drawnInOrder(db, lotId)
  return cords.filter((cord) => cord.result === undefined).map((cord) => cord.position)
}

/** Records every drawn cord that has no result: the first `nonconforming` of them fail, the others are clear. */
export async function recordAll(db: Db, { inspector }: ThreePeople, lotId: number, nonconforming = 0): Promise<void> {
  for (const [i, position] of (await toTest(db, lotId)).entries()) {
    const entry = i < nonconforming ? failing : clear
    await recordResult(db, inspector, lotId, { key: randomUUID(), position, ...entry })
  }
}

/** Sends a results file as its page does; the rows in the way are named as there. */
export async function sendFile(db: Db, inspector: Person, lotId: number, text: string, key: string = randomUUID()) {
  const file = await readResultsText(text, await openToFile(db, inspector, lotId))
  const done = await recordFile(db, inspector, lotId, { key, file })
  return done.kind === 'recorded' ? done : { ...done, bad: { ...done.bad, named: done.bad.named.map(rowAloud) } }
}

/** A drawn lot with its whole sample recorded, of which so many fail. */
export async function testedLot(
  db: Db,
  three: ThreePeople,
  nonconforming: number,
  wanted: Wanted = {},
): Promise<number> {
  const lotId = await drawnLot(db, three, wanted)
  await recordAll(db, three, lotId, nonconforming)
  return lotId
}

/** What a manager sends to sign, on the lot's page as it now is. */
export async function signature(db: Db, lotId: number, reason = ''): Promise<Signature> {
  return { version: (await factsOf(db, lotId)).version, password: PASSWORD, reason }
}
