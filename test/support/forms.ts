// Every verb that takes a form's key, each ready to be sent: with its own input, with another, at another subject.
import { randomUUID } from 'node:crypto'
import { noteSeries } from '../../app/history/series/note.ts'
import { announceLot } from '../../app/lots/acts/announce.ts'
import { correctResult } from '../../app/lots/acts/correct-result.ts'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { addPerson } from '../../app/people/accounts/add.ts'
import { changeItem, defineItem } from '../../app/register/define-item.ts'
import { registerSupplier } from '../../app/register/register-supplier.ts'
import type { Person } from '../../app/terms/person.ts'
import type { Db } from '../../db/client.ts'
import {
  announcedLot,
  clear,
  drawnLot,
  failing,
  recordAll,
  sendFile,
  signature,
  terms,
  testedLot,
  toTest,
} from './lot.ts'
import type { ThreePeople } from './people.ts'
import { takeReserve } from './ruling.ts'

export type KeyedForm = {
  person: Person
  send(key: string, who?: Person): Promise<unknown>
  otherInput?(key: string): Promise<unknown>
  otherSubject?(key: string): Promise<unknown>
}

export type KeyedVerb = {
  verb: string
  /** expression that grows by one where the verb is carried out */
  counts: string
  /** what the same form brings after a day, when its key is forgotten: the same answer, a second thing, or a refusal */
  afterADay: 'the same' | 'another' | 'invalid' | 'conflict' | 'refused rows'
  ready(db: Db, three: ThreePeople): Promise<KeyedForm>
}

const name = () => `Name ${randomUUID().slice(0, 8)}`
const heading = 'position,crosstalk margin,return loss margin,wire map,visual,tester serial'
const untested = { kind: 'gone', note: 'not in its carton' } as const

export const keyedVerbs: KeyedVerb[] = [
  {
    verb: 'register a supplier',
    counts: '(select count(*) from suppliers)',
    afterADay: 'invalid',
    async ready(db, { officer }) {
      const called = name()
      return {
        person: officer,
        send: (key, who = officer) => registerSupplier(db, who, { key, name: called }),
        otherInput: (key) => registerSupplier(db, officer, { key, name: name() }),
      }
    },
  },
  {
    verb: 'define an item',
    counts: '(select count(*) from items)',
    afterADay: 'invalid',
    async ready(db, { officer }) {
      const item = { ...terms, name: name() }
      return {
        person: officer,
        send: (key, who = officer) => defineItem(db, who, { key, ...item }),
        otherInput: (key) => defineItem(db, officer, { key, ...item, name: name() }),
      }
    },
  },
  {
    verb: 'change an item',
    counts: '(select sum(version) from items)',
    afterADay: 'conflict',
    async ready(db, { officer }) {
      const item = { ...terms, name: name(), version: 1 }
      const id = await defineItem(db, officer, { ...item, key: randomUUID() })
      const other = await defineItem(db, officer, { ...item, name: name(), key: randomUUID() })
      const change = { ...item, lengthMetres: '3' }
      return {
        person: officer,
        send: (key, who = officer) => changeItem(db, who, id, { key, ...change }),
        otherInput: (key) => changeItem(db, officer, id, { key, ...change, lengthMetres: '3.0' }),
        otherSubject: (key) => changeItem(db, officer, other, { key, ...change }),
      }
    },
  },
  {
    verb: 'announce a lot',
    counts: '(select count(*) from lots)',
    afterADay: 'another',
    async ready(db, three) {
      const { officer } = three
      const { supplier, item } = await factsOf(db, await announcedLot(db, three))
      const packing = { size: 24, cartons: 3, cordsInCarton: 10 }
      const said = { ...packing, productionMark: 'W31', purchaseOrder: 'PO 7', isolated: false }
      const lot = { supplierId: supplier.id, itemId: item.id, ...said }
      return {
        person: officer,
        send: (key, who = officer) => announceLot(db, who, { key, ...lot }),
        otherInput: (key) => announceLot(db, officer, { key, ...lot, productionMark: 'W32' }),
      }
    },
  },
  {
    verb: 'add a person',
    counts: '(select count(*) from people)',
    afterADay: 'invalid',
    async ready(db, { manager }) {
      const added = { name: name(), role: 'inspector', password: 'a horse reads at dusk' } as const
      return {
        person: manager,
        send: (key, who = manager) => addPerson(db, who, { key, ...added }),
        otherInput: (key) => addPerson(db, manager, { key, ...added, role: 'officer' }),
      }
    },
  },
  {
    verb: 'note a series',
    counts: '(select count(*) from series_notes)',
    afterADay: 'conflict',
    async ready(db, three) {
      const { manager } = three
      const [one, other] = [await decidedSeries(db, three), await decidedSeries(db, three)]
      const note = { kind: 'reduced-wanted', reason: 'steady for a year' } as const
      const send = (key: string, { supplierId, itemId }: typeof one, who: Person, reason: string = note.reason) =>
        noteSeries(db, who, supplierId, { key, itemId, ...note, reason })
      return {
        person: manager,
        send: (key, who = manager) => send(key, one, who),
        otherInput: (key) => send(key, one, manager, 'steady for two years'),
        otherSubject: (key) => send(key, other, manager),
      }
    },
  },
  {
    verb: 'record a result',
    counts: '(select count(*) from results)',
    afterADay: 'the same',
    async ready(db, three) {
      const { inspector } = three
      const lotId = await drawnLot(db, three)
      const [position = 0, next = 0] = await toTest(db, lotId)
      const entry = { ...clear, crosstalkMargin: '04.10' } // the database writes 4.10
      return {
        person: inspector,
        send: (key, who = inspector) => recordResult(db, who, lotId, { key, position, ...entry }),
        otherInput: (key) => recordResult(db, inspector, lotId, { key, position, ...entry, crosstalkMargin: '4.1' }),
        otherSubject: (key) => recordResult(db, inspector, lotId, { key, position: next, ...entry }),
      }
    },
  },
  {
    verb: 'record a missing cord',
    counts: '(select count(*) from results)',
    afterADay: 'the same',
    async ready(db, three) {
      const { inspector } = three
      const [lotId, other] = [await drawnLot(db, three), await drawnLot(db, three)] // of one seed: the same cords are drawn
      const [position = 0] = await toTest(db, lotId)
      return {
        person: inspector,
        send: (key, who = inspector) => recordResult(db, who, lotId, { key, position, ...untested }),
        otherInput: (key) => recordResult(db, inspector, lotId, { key, position, ...untested, note: 'gone' }),
        otherSubject: (key) => recordResult(db, inspector, other, { key, position, ...untested }),
      }
    },
  },
  {
    verb: 'correct a result',
    counts: '(select count(*) from earlier_results)',
    afterADay: 'the same',
    async ready(db, three) {
      const { inspector } = three
      const lotId = await drawnLot(db, three)
      const [position = 0, next = 0] = await toTest(db, lotId)
      await recordAll(db, three, lotId)
      const correction = { position, entryNumber: 1, reason: 'a 3 read as a −0', ...failing }
      return {
        person: inspector,
        send: (key, who = inspector) => correctResult(db, who, lotId, { key, ...correction }),
        otherInput: (key) => correctResult(db, inspector, lotId, { key, ...correction, reason: 'misread' }),
        otherSubject: (key) => correctResult(db, inspector, lotId, { key, ...correction, position: next }),
      }
    },
  },
  {
    verb: 'let a cord stand in',
    counts: `(select count(*) from drawn_cords where purpose = 'stand-in')`,
    afterADay: 'conflict',
    async ready(db, three) {
      const { inspector, manager } = three
      const lotId = await drawnLot(db, three)
      const [position = 0, next = 0] = await toTest(db, lotId)
      for (const each of [position, next])
        await recordResult(db, inspector, lotId, { key: randomUUID(), position: each, ...untested })
      return {
        person: manager,
        send: (key, who = manager) => takeReserve(db, who, lotId, { key, position }),
        otherSubject: (key) => takeReserve(db, manager, lotId, { key, position: next }),
      }
    },
  },
  {
    verb: 'record a file',
    counts: `(select count(*) from audit where action = 'cords.imported')`,
    afterADay: 'refused rows',
    async ready(db, three) {
      const { inspector } = three
      const [lotId, other] = [await drawnLot(db, three), await drawnLot(db, three)]
      const [first, second] = await toTest(db, lotId)
      const file = (position: number | undefined) => `${heading}\n${position},1.7,0.4,in order,in order,T-204`
      return {
        person: inspector,
        send: (key, who = inspector) => sendFile(db, who, lotId, file(first), key),
        otherInput: (key) => sendFile(db, inspector, lotId, file(second), key),
        otherSubject: (key) => sendFile(db, inspector, other, file(first), key),
      }
    },
  },
]

async function decidedSeries(db: Db, three: ThreePeople): Promise<{ supplierId: number; itemId: number }> {
  const lotId = await testedLot(db, three, 0, { terms: { acceptanceQualityLimit: '10' } })
  await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId)), outcome: 'accepted' })
  const { supplier, item } = await factsOf(db, lotId)
  return { supplierId: supplier.id, itemId: item.id }
}
