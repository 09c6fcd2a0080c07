// Plants the example: everything goes through the domain verbs, as people would have done it, with a fixed seed.

import { randomUUID } from 'node:crypto'
import { eq } from 'drizzle-orm'
import { wholeCords } from '../app/kit/decimal.ts'
import { announceLot } from '../app/lots/acts/announce.ts'
import { closeLot } from '../app/lots/acts/close.ts'
import { decideLot } from '../app/lots/acts/decide.ts'
import { drawLot } from '../app/lots/acts/draw.ts'
import { freezePlan } from '../app/lots/acts/freeze-plan.ts'
import { openToFile, recordFile } from '../app/lots/acts/import-results.ts'
import { receiveLot } from '../app/lots/acts/receive.ts'
import type { ChosenPlan } from '../app/lots/acts/write-plan.ts'
import { receiptCheck } from '../app/lots/receipt-check.ts'
import { drawnInOrder } from '../app/lots/record/pick-list.ts'
import type { FormerLot } from '../app/lots/rules/former.ts'
import type { Packing } from '../app/lots/rules/packing.ts'
import { readResultsText } from '../app/lots/rules/results-file.ts'
import { insertPerson } from '../app/people/accounts/add.ts'
import { type FirstManager, setUp } from '../app/people/accounts/set-up.ts'
import { hashPassword } from '../app/people/passwords/password.ts'
import { defineItem } from '../app/register/define-item.ts'
import { registerSupplier } from '../app/register/register-supplier.ts'
import { unitsInShare } from '../app/statistics/plans/percentage.ts'
import { designZeroForLot } from '../app/statistics/plans/zero.ts'
import type { Person, Role } from '../app/terms/person.ts'
import type { Db, Tx } from '../db/client.ts'
import { lots as lotTable } from '../db/schema/lots.ts'
import { firms } from '../db/schema/people.ts'
import { sentenceOf } from '../views/words/refusals.ts'
import { chanceFrom, type MadeCord, makeLot } from './model.ts'
import {
  type ExampleLot,
  examplePassword,
  firmName,
  type ItemName,
  scenarioItems,
  scenarioLots,
  scenarioPeople,
} from './scenario.ts'

type Cast = Record<Role, Person>
/** `password`: with which all of them sign */
type Signing = Cast & { password: string }

/**
 * Fills an empty database with the example firm, over the owner's connection and in one transaction: cut in the middle,
 * nothing of it is there. Takes a few seconds; the outcome is the same every time, but for the dates.
 */
export async function plantExample(owner: Db): Promise<void> {
  await owner.transaction((tx) => plant(tx, examplePassword))
}

/**
 * The same with a first manager, whose password the example's people get: the one in the scenario is known to everybody
 * who has the program. The set-up link is used up only with all of it. Returns the manager's session.
 */
export async function setUpExample(owner: Db, token: string, manager: FirstManager): Promise<string> {
  return owner.transaction(async (tx) => {
    const session = await setUp(tx, token, { ...manager, firm: undefined })
    await plant(tx, manager.password)
    return session
  })
}

async function plant(db: Tx, password: string): Promise<void> {
  const cast = await plantPeople(db, password)
  const suppliers = new Map<string, number>()
  for (const name of new Set(scenarioLots.map((lot) => lot.supplier)))
    suppliers.set(name, await registerSupplier(db, cast.officer, { key: randomUUID(), name }))
  const itemIds: Record<ItemName, number> = {
    rack: await defineItem(db, cast.officer, { key: randomUUID(), ...scenarioItems.rack }),
    desk: await defineItem(db, cast.officer, { key: randomUUID(), ...scenarioItems.desk }),
  }
  for (const lot of scenarioLots)
    await plantLot(db, { ...cast, password }, lot, {
      supplierId: found(suppliers, lot.supplier),
      itemId: itemIds[lot.item],
    })
}

/** Throws where a firm is there already: the owner's connection is for the example alone. */
async function plantPeople(tx: Tx, password: string): Promise<Cast> {
  const passwordHash = await hashPassword(password)
  const planted = await tx.insert(firms).values({ name: firmName, example: true }).onConflictDoNothing().returning()
  if (planted.length === 0) throw new Error('The example is planted into an empty database only: this one has its firm')
  const add = async (name: string, role: Role): Promise<Person> => ({
    id: await insertPerson(tx, { name, role, passwordHash }),
    name,
    role,
    separateDuties: true,
  })
  return {
    officer: await add(scenarioPeople.officer, 'officer'),
    inspector: await add(scenarioPeople.inspector, 'inspector'),
    manager: await add(scenarioPeople.manager, 'manager'),
  }
}

/** Takes one lot as far as the scenario says. */
async function plantLot(
  db: Tx,
  cast: Signing,
  lot: ExampleLot,
  of: { supplierId: number; itemId: number },
): Promise<void> {
  const { size, cartons, cordsInCarton, progress } = lot
  const packing = { size, cartons, cordsInCarton }
  const lotId = await announceLot(db, cast.officer, {
    key: randomUUID(),
    ...of,
    ...packing,
    productionMark: lot.mark,
    purchaseOrder: lot.order,
    isolated: false,
    rule: lot.rule,
    former: await formerOf(db, lot),
  })
  if (progress.to === 'announced') return
  await receive(db, cast.inspector, lotId, packing)
  if (progress.to === 'received') return
  if (!lot.rule)
    await freezePlan(db, cast.officer, lotId, {
      version: await versionOf(db, lotId),
      reason: 'The purchase contract names this plan, clause 4.2',
      ...planFor(lot),
    })
  if (progress.to === 'planned') return
  await drawLot(db, cast.inspector, lotId, () => seedOf(lot.order))
  if (progress.to === 'drawn') return

  const made = makeLot(lot.order, lot, lot.processOf)
  await recordDrawn(db, cast.inspector, { lotId, made, share: progress.to === 'half' ? 0.5 : 1 })
  if ('reason' in progress) await decide(db, cast, { lotId, made, progress })
}

/** The lot that this one was, found by the order under which it came. */
async function formerOf(db: Tx, { resubmissionOf }: ExampleLot): Promise<FormerLot | undefined> {
  if (!resubmissionOf) return undefined
  const { order, declaredSorting } = resubmissionOf
  const [lot] = await db.select({ id: lotTable.id }).from(lotTable).where(eq(lotTable.purchaseOrder, order))
  if (!lot) throw new Error(`there is no lot of ${order}`)
  return { kind: 'resubmission', lotId: lot.id, sorting: declaredSorting }
}

/** Counted as announced, with one production mark; the plan of a lot with a rule freezes with it. */
async function receive(db: Tx, inspector: Person, lotId: number, packing: Packing): Promise<void> {
  const counted = { version: await versionOf(db, lotId), oneMark: true, ...packing }
  const check = await receiptCheck(db, inspector, lotId, counted)
  await receiveLot(db, inspector, lotId, { ...counted, note: '', shown: check?.shown })
}

type Decided = Extract<ExampleLot['progress'], { reason: string }>

async function decide(
  db: Tx,
  cast: Signing,
  lot: { lotId: number; made: MadeCord[]; progress: Decided },
): Promise<void> {
  const { lotId, made, progress } = lot
  const signed = async () => ({
    version: await versionOf(db, lotId),
    password: cast.password,
    reason: progress.reason,
  })
  if (progress.to === 'decided') {
    await decideLot(db, cast.manager, lotId, { ...(await signed()), outcome: progress.outcome })
    return
  }
  await decideLot(db, cast.manager, lotId, { ...(await signed()), outcome: 'screened' })
  await recordDrawn(db, cast.inspector, { lotId, made, share: progress.to === 'screening' ? 0.4 : 1 })
  if (progress.to === 'sorted') await closeLot(db, cast.manager, lotId, { ...(await signed()), outcome: 'sorted' })
}

/** Records, by a results file, a share of the drawn cords that have no result yet. */
async function recordDrawn(
  db: Tx,
  inspector: Person,
  { lotId, made, share }: { lotId: number; made: MadeCord[]; share: number },
): Promise<void> {
  const open = (await drawnInOrder(db, lotId)).filter((cord) => cord.result === undefined)
  const rows = open.slice(0, Math.ceil(open.length * share)).map(({ position }) => rowOf(made[position - 1]))
  const text = ['position,crosstalk margin,return loss margin,wire map,visual,tester serial,carton,spool', ...rows]
  const file = await readResultsText(text.join('\n'), await openToFile(db, inspector, lotId))
  const done = await recordFile(db, inspector, lotId, { key: randomUUID(), file })
  if (done.kind === 'refused')
    throw new Error(`lot ${lotId}: ${done.bad.named.flatMap(({ causes }) => causes.map(sentenceOf)).join('; ')}`)
}

function rowOf(cord: MadeCord | undefined): string {
  if (!cord) throw new Error('a cord was drawn that was not made')
  const said = (inspection: MadeCord['visual']) => (inspection === 'in-order' ? 'in order' : 'at fault')
  const { position, crosstalkMargin, returnLossMargin, wireMap, visual, carton, spool } = cord
  return [position, crosstalkMargin, returnLossMargin, said(wireMap), said(visual), 'T-0417', carton, spool].join(',')
}

function planFor({ plan, size, item }: ExampleLot): ChosenPlan {
  const { kind, share = 10, acceptanceNumber = 0 } = plan
  switch (kind) {
    case 'every-cord':
      return { kind, sampleSize: size, acceptanceNumber: size }
    case 'percentage':
      return { kind, sampleSize: unitsInShare(share / 100, size), acceptanceNumber }
    default:
      return { kind: 'zero-acceptance', sampleSize: zeroSampleOf(scenarioItems[item], size), acceptanceNumber: 0 }
  }
}

function zeroSampleOf(terms: (typeof scenarioItems)[ItemName], lotSize: number): number {
  const nonconforming = wholeCords(terms.tooMany, lotSize)
  if (nonconforming === undefined) throw new Error(`${terms.tooMany} of ${lotSize} cords is no number of cords`)
  return designZeroForLot({ lotSize, nonconforming, risk: (100 - Number(terms.catchOf100)) / 100 })
}

/** 30 digits that the purchase order gives again and again. */
function seedOf(order: string): string {
  const chance = chanceFrom(`draw of ${order}`)
  return Array.from({ length: 30 }, () => Math.floor(chance() * 10)).join('')
}

async function versionOf(db: Tx, lotId: number): Promise<number> {
  const [lot] = await db.select({ version: lotTable.version }).from(lotTable).where(eq(lotTable.id, lotId))
  if (!lot) throw new Error(`there is no lot ${lotId}`)
  return lot.version
}

function found(ids: Map<string, number>, name: string): number {
  const id = ids.get(name)
  if (id === undefined) throw new Error(`supplier ${name} is not registered`)
  return id
}
