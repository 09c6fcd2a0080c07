// Forms of the bench: under a key that did something else they are refused with 409 and shown again with what was typed.
import { randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import { type Again, sendAsShown, shownAgain } from '../../support/again.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { drawnLot, recordAll, toTest } from '../../support/lot.ts'
import { threePeople } from '../../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const service = testApp(db)
const somethingElse = /sent before for something else/

const reading = {
  kind: 'tested',
  crosstalkSide: 'above',
  crosstalkMargin: '3,1',
  returnLossSide: 'above',
  returnLossMargin: '2.25',
  wireMap: 'in-order',
  visual: 'in-order',
}
const heading = 'position,crosstalk margin,return loss margin,wire map,visual,tester serial'
const fileOf = (position: number) => `${heading}\n${position},1.7,0.4,in order,in order,T-204`

async function drawn() {
  const lotId = await drawnLot(db, three)
  const [one = 0, other = 0] = await toTest(db, lotId)
  return { lotId, one, other }
}

async function recorded() {
  const { lotId, one, other } = await drawn()
  await recordAll(db, three, lotId)
  return { path: `/lots/${lotId}/cords/${one}/correction`, otherPath: `/lots/${lotId}/cords/${other}/correction` }
}

const rows: Again[] = [
  {
    form: 'the next cord at the bench',
    taken: true,
    role: 'inspector',
    ready: async () => {
      const { lotId, one, other } = await drawn()
      const second = { ...reading, crosstalkMargin: '5,55', spool: 'S 12', position: String(other) }
      return { path: `/lots/${lotId}/bench`, first: { ...reading, position: String(one) }, second }
    },
    shows: ['value="5,55"', 'value="S 12"', 'Record cord'],
    says: somethingElse,
  },
  {
    form: 'other values of the same cord, which are then a correction',
    taken: false,
    role: 'inspector',
    ready: async () => {
      const { lotId, one } = await drawn()
      const first = { ...reading, position: String(one) }
      return { path: `/lots/${lotId}/bench`, first, second: { ...first, returnLossMargin: '2,52' } }
    },
    shows: ['value="2,52"', 'Correct it', 'name="entryNumber" value="1"'],
  },
  {
    form: 'a cord that is missing after all',
    taken: false,
    role: 'inspector',
    ready: async () => {
      const { lotId, one } = await drawn()
      const position = String(one)
      const second = { kind: 'gone', note: 'not in carton 3', position }
      return { path: `/lots/${lotId}/bench`, first: { ...reading, position }, second }
    },
    shows: ['not in carton 3', 'It cannot be tested'],
  },
  {
    form: 'another correction',
    taken: true,
    role: 'inspector',
    ready: async () => {
      const { path } = await recorded()
      const first = { ...reading, entryNumber: '1', reason: 'misread' }
      return { path, first, second: { ...first, reason: 'read the line of its neighbour' } }
    },
    shows: ['read the line of its neighbour', 'name="entryNumber" value="2"'],
  },
  {
    form: 'a correction of another cord',
    taken: true,
    role: 'inspector',
    ready: async () => {
      const { path, otherPath } = await recorded()
      const first = { ...reading, entryNumber: '1', reason: 'misread' }
      return { path: otherPath, firstPath: path, first, second: { ...first, crosstalkMargin: '6,66' } }
    },
    shows: ['value="6,66"', 'name="entryNumber" value="1"'],
    says: somethingElse,
  },
  {
    form: 'a ruling on another cord',
    taken: true,
    role: 'manager',
    ready: async () => {
      const { lotId, one, other } = await drawn()
      const inspector = await service.appAs(three.inspector)
      for (const position of [one, other]) {
        const missing = { key: randomUUID(), position: String(position), kind: 'gone', note: 'gone' }
        expect((await inspector.post(`/lots/${lotId}/bench`, missing)).status).toBe(303)
      }
      const ruling = { entryNumber: '1', ruling: 'reserve', reason: 'left its rack' }
      const path = (position: number) => `/lots/${lotId}/cords/${position}/ruling`
      return { path: path(other), firstPath: path(one), first: ruling, second: ruling }
    },
    shows: ['Rule on this cord', 'left its rack'],
    says: somethingElse,
  },
  {
    form: 'other pasted lines',
    taken: true,
    role: 'inspector',
    ready: async () => {
      const { lotId, one, other } = await drawn()
      return { path: `/lots/${lotId}/file`, first: { text: fileOf(one) }, second: { text: fileOf(other) } }
    },
    shows: ['T-204</textarea>'],
  },
  {
    form: 'another uploaded file, which is named',
    taken: true,
    role: 'inspector',
    ready: async () => {
      const { lotId, one, other } = await drawn()
      const file = (position: number, name: string) => ({ text: '', file: new File([fileOf(position)], name) })
      return { path: `/lots/${lotId}/file`, first: file(one, 'morning.csv'), second: file(other, 'evening.csv') }
    },
    shows: ['You chose evening.csv: choose it again'],
  },
]

test.each(rows)('$form under a used key is a 409 that shows what was typed, under a fresh key', async (row) => {
  const forms = await row.ready()
  const client = await service.appAs(three[row.role])
  const page = await shownAgain(client, owner, row, forms)
  if (row.taken) expect((await sendAsShown(client, page, forms)).status).toBe(303)
})
