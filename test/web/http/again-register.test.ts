// Forms of the registers, of lots and of people: under a key that did something else they are refused with 409 and shown again with what was typed.
import { randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import { announceLot } from '../../../app/lots/acts/announce.ts'
import { decideLot } from '../../../app/lots/acts/decide.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { type Again, sendAsShown, shownAgain } from '../../support/again.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { announcedLot, signature, testedLot } from '../../support/lot.ts'
import { textOf } from '../../support/page-text.ts'
import { addTo, threePeople } from '../../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const service = testApp(db)

const item = {
  name: 'Blue cord',
  categoryClaimed: 'Category 6A',
  cordLimit: 'Cord limit of the contract, second edition',
  lengthMetres: '2,5',
  marginalPolicy: 'lenient',
  crosstalkAccuracy: '1,2',
  returnLossAccuracy: '1.50',
  tooMany: '5',
  catchOf100: '95',
  costTest: '1,30',
  costEscape: '85',
  costReturn: '200.5',
}
const rows: Again[] = [
  {
    form: 'a supplier of another name',
    taken: true,
    role: 'officer',
    ready: async () => ({ path: '/suppliers', first: { name: 'Copper Lane' }, second: { name: 'Brass Lane' } }),
    shows: ['value="Brass Lane"'],
  },
  {
    form: 'an item of another length',
    taken: true,
    role: 'officer',
    ready: async () => ({ path: '/items', first: item, second: { ...item, name: 'Red cord', lengthMetres: '3,5' } }),
    shows: ['value="Red cord"', 'value="3,5"'],
  },
  {
    form: 'another change of an item',
    taken: true,
    role: 'officer',
    ready: async () => {
      const { item: old } = await factsOf(db, await announcedLot(db, three))
      const change = { ...item, name: `Teal cord ${old.id}`, version: '1' }
      return { path: `/items/${old.id}`, first: change, second: { ...change, costTest: '1,45' } }
    },
    shows: ['value="1,45"', 'name="version" value="2"'],
  },
  {
    form: 'another lot',
    taken: true,
    role: 'officer',
    ready: async () => {
      const { supplier, item } = await factsOf(db, await announcedLot(db, three))
      const packing = { size: '240', cartons: '6', cordsInCarton: '40' }
      const said = { productionMark: 'week 31', purchaseOrder: 'PO 4711' }
      const lot = { supplierId: String(supplier.id), itemId: String(item.id), ...packing, ...said }
      return { path: '/lots', first: lot, second: { ...lot, productionMark: 'week 32' } }
    },
    shows: ['value="week 32"', 'value="PO 4711"'],
  },
  {
    form: 'another person',
    taken: true,
    role: 'manager',
    ready: async () => {
      const person = { name: 'Nils Newcomer', role: 'inspector', password: 'a horse reads at dusk' }
      return { path: '/people', first: person, second: { ...person, name: 'Nora Newcomer', role: 'officer' } }
    },
    shows: ['value="Nora Newcomer"', 'value="officer" checked'],
  },
  {
    form: 'a person of another password',
    taken: false,
    role: 'manager',
    ready: async () => {
      const person = { name: 'Pia Newcomer', role: 'inspector', password: 'a horse reads at dusk' }
      return { path: '/people', first: person, second: { ...person, password: 'a mare writes at dawn' } }
    },
    shows: ['value="Pia Newcomer"'],
    says: /added Pia Newcomer with another password/,
  },
  {
    form: 'another note on a series',
    taken: false,
    role: 'manager',
    ready: async () => {
      const lotId = await testedLot(db, three, 0, { terms: { acceptanceQualityLimit: '10' } })
      await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId)), outcome: 'accepted' })
      const { supplier, item } = await factsOf(db, lotId)
      const first = { itemId: String(item.id), kind: 'reduced-wanted', reason: 'steady for a year' }
      return { path: `/suppliers/${supplier.id}/series`, first, second: { ...first, reason: 'steady for two years' } }
    },
    shows: ['You typed: steady for two years'],
  },
]

test.each(rows)('$form under a used key is a 409 that shows what was typed, under a fresh key', async (row) => {
  const forms = await row.ready()
  const client = await service.appAs(three[row.role])
  const page = await shownAgain(client, owner, row, forms)
  if (row.taken) expect((await sendAsShown(client, page, forms)).status).toBe(303)
})

test('a key seen by somebody else answers nothing: the other person’s form comes back filled', async () => {
  const officer = await service.appAs(three.officer)
  const { supplier, item } = await factsOf(db, await announcedLot(db, three))
  const lot = { supplierId: supplier.id, itemId: item.id, size: 24, cartons: 3, cordsInCarton: 10, isolated: false }
  const key = randomUUID()
  const colleague = await addTo(db, 'Olga Officer', 'officer')
  await announceLot(db, colleague, { key, ...lot, productionMark: 'W1', purchaseOrder: 'PO 1' })
  const form = { supplierId: String(supplier.id), itemId: String(item.id), productionMark: 'W2', purchaseOrder: 'PO 2' }
  const answer = await officer.post('/lots', { key, size: '24', cartons: '3', cordsInCarton: '10', ...form })
  expect(answer.status).toBe(409)
  const page = await answer.text()
  expect(textOf(page)).toContain('sent before by somebody else')
  expect(page).toContain('value="W2"')
})

test('a decision carries no key: sent twice at once and again, it is taken once and told so', async () => {
  const lotId = await testedLot(db, three, 0)
  const { version, password } = await signature(db, lotId)
  const client = await service.appAs(three.manager)
  const form = { version: String(version), outcome: 'accepted', reason: '', password }
  const answers = await Promise.all([1, 2].map(() => client.post(`/lots/${lotId}/decision`, form)))
  expect(answers.map(({ status }) => status).sort()).toEqual([303, 409])
  const late = await client.post(`/lots/${lotId}/decision`, form)
  expect(late.status).toBe(409)
  expect(textOf(await late.text())).toContain(`Lot ${lotId} is accepted and cannot be decided on`)
  expect(await owner`select outcome from decisions where lot_id = ${lotId}`).toEqual([{ outcome: 'accepted' }])
  expect(await owner`select 1 from audit where subject = ${`lot/${lotId}`} and action = 'lot.accepted'`).toHaveLength(1)
})
