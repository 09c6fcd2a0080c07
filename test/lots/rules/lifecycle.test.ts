// The one table of what a lot's state allows, held against the database's triggers and against every verb.

import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { Refusal } from '../../../app/kit/refusal.ts'
import { chooseRule } from '../../../app/lots/acts/choose-rule.ts'
import { closeLot } from '../../../app/lots/acts/close.ts'
import { correctLot } from '../../../app/lots/acts/correct.ts'
import { correctResult } from '../../../app/lots/acts/correct-result.ts'
import { decideLot } from '../../../app/lots/acts/decide.ts'
import { drawLot } from '../../../app/lots/acts/draw.ts'
import { freezePlan } from '../../../app/lots/acts/freeze-plan.ts'
import { receiveLot } from '../../../app/lots/acts/receive.ts'
import { recordResult } from '../../../app/lots/acts/record-result.ts'
import { withdrawLot } from '../../../app/lots/acts/withdraw.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { lifecycle, openStates } from '../../../app/lots/rules/lifecycle.ts'
import type { LotAct, LotState } from '../../../app/terms/lot.ts'
import type { Person } from '../../../app/terms/person.ts'
import type { Db } from '../../../db/client.ts'
import { lotState } from '../../../db/schema/lot-words.ts'
import { sentenceOf } from '../../../views/words/refusals.ts'
import { freshDatabase } from '../../support/database.ts'
import { clear, signature, testedLot } from '../../support/lot.ts'
import { PASSWORD, threePeople } from '../../support/people.ts'
import { takeReserve } from '../../support/ruling.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const states = lotState.enumValues
const steps = states.flatMap((from) => states.map((to) => ({ from, to })))
let lotId = 0
let decided = 0
let bought: { supplierId: number; itemId: number; productionMark: string; purchaseOrder: string; isolated: boolean }

beforeAll(async () => {
  const plan = { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 } as const
  lotId = await testedLot(db, three, 0, { plan })
  const { supplier, item, announced } = await factsOf(db, lotId)
  const { productionMark, purchaseOrder, isolated } = announced
  bought = { supplierId: supplier.id, itemId: item.id, productionMark, purchaseOrder, isolated }
  decided = await testedLot(db, three, 0)
  await decideLot(db, three.manager, decided, { ...(await signature(db, decided)), outcome: 'accepted' })
})

/** What the table says: some act leads from the one to the other. */
const leads = (from: LotState, to: LotState) => Object.values(lifecycle[from]).some((step) => step.to.includes(to))

/** The decision that a step into this state needs. */
function decisionFor(from: LotState, to: LotState): object | undefined {
  const sample = { after: 'sample', verdict: 'accept' }
  switch (to) {
    case 'accepted':
      return { ...sample, outcome: 'accepted' }
    case 'conceded':
      return {
        ...sample,
        outcome: 'conceded',
        risk_bearer: 'x',
        concession_use: 'x',
        concession_cords: 1,
        concession_until: '2027-01-01',
      }
    case 'screening':
      return { ...sample, outcome: 'screened' }
    case 'returned':
      return from === 'drawn'
        ? { ...sample, outcome: 'returned' }
        : { after: 'screening', verdict: null, outcome: 'returned' }
    case 'sorted':
      return { after: 'screening', verdict: null, outcome: 'sorted' }
    default:
      return undefined
  }
}

describe('the database', () => {
  /** Puts the lot into `from` behind the triggers, with every paper that the step may need; then the service's login moves it. Never kept. */
  const move = (from: LotState, to: LotState) =>
    owner.begin(async (sql) => {
      const withdrawal = (state: LotState) =>
        state === 'withdrawn' ? "withdrawn_by = 3, withdrawn_at = now(), withdrawal_reason = 'x'," : ''
      await sql`set local session_replication_role = replica`
      await sql.unsafe(`update lots set ${withdrawal(from)} state = '${from}' where id = ${lotId}`)
      const decision = decisionFor(from, to)
      if (decision)
        await sql`insert into decisions select (jsonb_populate_record(null::decisions, to_jsonb(d) ||
          ${JSON.stringify({ ...decision, lot_id: lotId, reason: 'x' })}::text::jsonb)).* from decisions d where lot_id = ${decided}`
      await sql`set local session_replication_role = origin`
      await sql`set local session authorization cordsift_service`
      const moved = await sql.unsafe(`update lots set ${withdrawal(to)} state = '${to}' where id = ${lotId}`)
      throw Object.assign(new Error('taken back'), { moved: moved.count })
    })

  test.each(steps)('takes the step from $from to $to exactly where the table has it', async ({ from, to }) => {
    await expect(move(from, to)).rejects.toMatchObject(
      leads(from, to) ? { moved: 1 } : { constraint_name: 'lots_lifecycle' },
    )
  })

  test.each(states)('holds for done what the table has no act for: %s', async (state) => {
    const [row] = await owner.begin(async (sql) => {
      const withdrawn = state === 'withdrawn' ? "withdrawn_by = 3, withdrawn_at = now(), withdrawal_reason = 'x'," : ''
      await sql.unsafe(`update lots set ${withdrawn} state = '${state}' where id = ${lotId}`)
      const rows = await sql`select done_at is null as open from lots where id = ${lotId}`
      await sql`update lots set state = 'drawn', withdrawn_by = null, withdrawn_at = null, withdrawal_reason = null where id = ${lotId}`
      return rows
    })
    expect(row?.open).toBe(openStates.includes(state))
  })
})

describe('the verbs', () => {
  test.each(states)('do with a lot that is %s what the table has, each for its own role', async (state) => {
    await owner.begin(async (sql) => {
      const withdrawn = state === 'withdrawn' ? "withdrawn_by = 3, withdrawn_at = now(), withdrawal_reason = 'x'," : ''
      await sql`set local session_replication_role = replica`
      await sql`update lots set withdrawn_by = null, withdrawn_at = null, withdrawal_reason = null, state = 'drawn' where id = ${lotId}`
      await sql.unsafe(`update lots set ${withdrawn} state = '${state}' where id = ${lotId}`)
    })
    for (const [act, order] of Object.entries(orders) as [LotAct, Order][])
      for (const who of Object.values(three)) {
        const step = lifecycle[state][act]
        const by = Object.values(lifecycle).find((steps) => steps[act])?.[act]?.by
        const expected = who.role !== by ? 'role' : step === undefined ? 'state' : 'neither'
        expect(await refusedFor(order, who), `${act} by ${who.role}`).toBe(expected)
      }
  })
})

type Order = (tx: Db, who: Person, lot: { version: number; state: LotState }) => Promise<unknown>

/** What stands against an order; it is never kept. */
async function refusedFor(order: Order, who: Person): Promise<'role' | 'state' | 'neither'> {
  const { version, state } = await factsOf(db, lotId)
  const error: unknown = await db
    .transaction(async (tx) => {
      await order(tx, who, { version, state })
      throw new Error('taken back')
    })
    .catch((caught: unknown) => caught)
  if (!(error instanceof Refusal)) return 'neither'
  if (error.kind === 'forbidden') return 'role'
  return /^Lot \d+ (is|has) .* and cannot be /.test(sentenceOf(error)) ? 'state' : 'neither'
}

const signed = (version: number) => ({ version, password: PASSWORD, reason: 'x' })
const packing = { size: 24, cartons: 3, cordsInCarton: 10 }
const concession = { riskBearer: 'x', use: 'x', cords: 1, until: '2027-01-01' }

/** Each act as its verb takes it. */
const orders: Record<LotAct, Order> = {
  correct: (tx, who, { version }) => correctLot(tx, who, lotId, { ...packing, ...bought, version }),
  'choose-rule': (tx, who, { version }) => chooseRule(tx, who, lotId, { version, rule: { kind: 'every-cord' } }),
  receive: (tx, who, { version }) => receiveLot(tx, who, lotId, { ...packing, note: '', version }),
  withdraw: (tx, who, { version }) => withdrawLot(tx, who, lotId, { version, reason: 'x' }),
  plan: (tx, who, { version }) =>
    freezePlan(tx, who, lotId, { kind: 'single', sampleSize: 6, acceptanceNumber: 1, version, reason: 'for the test' }),
  draw: (tx, who) => drawLot(tx, who, lotId),
  record: (tx, who) => recordResult(tx, who, lotId, { key: randomUUID(), position: 24, ...clear }),
  amend: (tx, who) =>
    correctResult(tx, who, lotId, { key: randomUUID(), position: 1, entryNumber: 1, reason: 'x', ...clear }),
  rule: (tx, who) => takeReserve(tx, who, lotId, { key: randomUUID(), position: 1 }),
  accept: (tx, who, { version }) => decideLot(tx, who, lotId, { ...signed(version), outcome: 'accepted' }),
  concede: (tx, who, { version }) => decideLot(tx, who, lotId, { ...signed(version), outcome: 'conceded', concession }),
  screen: (tx, who, { version }) => decideLot(tx, who, lotId, { ...signed(version), outcome: 'screened' }),
  return: (tx, who, { version, state }) =>
    (state === 'screened' ? closeLot : decideLot)(tx, who, lotId, { ...signed(version), outcome: 'returned' }),
  sort: (tx, who, { version }) => closeLot(tx, who, lotId, { ...signed(version), outcome: 'sorted' }),
}
