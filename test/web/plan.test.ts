// The page of a plan, of the example's lots, as the officer opens it.
import { eq } from 'drizzle-orm'
import { beforeAll, describe, expect, test } from 'vitest'
import { Unanswered } from '../../app/compute/compute.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { databaseOver } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { people } from '../../db/schema/people.ts'
import { items, suppliers } from '../../db/schema/register.ts'
import { plantExample } from '../../seed/example.ts'
import { type Client, testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { textOf } from '../support/page-text.ts'

const { db, owner } = await freshDatabase()
let officer: Client
const lotOf: Record<string, number> = {}

beforeAll(async () => {
  await plantExample(databaseOver(owner))
  const [person] = await db.select().from(people).where(eq(people.role, 'officer'))
  if (!person) throw new Error('the example has no officer')
  officer = await testApp(db).appAs({ ...person, separateDuties: true })
  const rows = await db
    .select({ id: lots.id, supplier: suppliers.name })
    .from(lots)
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .orderBy(lots.id)
  for (const { id, supplier } of rows) lotOf[supplier] = id
})

const page = async (lot: number | undefined, query = '') => {
  const answer = await officer.get(`/lots/${lot}/plan${query}`)
  return { status: answer.status, text: textOf(await answer.text()) }
}

describe('the page of a plan', () => {
  test('a new supplier: nothing is fitted, protection alone recommends, the surveys stand as a note', async () => {
    const { status, text } = await page(lotOf['Paper Lark Cords'])
    expect(status).toBe(200)
    expect(text).toContain('interested parties and no random samples: nothing here is worked out from them')
    expect(text).toContain('0 finished lots of this item from Paper Lark Cords: none.')
    expect(text).toContain('No other way that protects as the item demands tests fewer cords at most')
    expect(text).toContain('from five finished lots on, or for a share that you enter')
  })

  // None in 114 of 360 with one nonconforming: 246 ÷ 360 = .683, so 32 of 100 such lots are rejected; with six: 10 of 100 pass.
  test('four figures stand under the answer: cords, what slips through, what is rejected for nothing, the cost', async () => {
    const { text } = await page(lotOf['Brass Heron Leads'], '?mean=0.3&worth=300')
    expect(text).toMatch(/Cords to test, at most 114 of 360; 10\d on average; 3.8 h at 30 an hour/)
    expect(text).toContain('Lots with too many that slip through 10 of 100 with 6 nonconforming')
    expect(text).toContain('Lots with only 1 that are rejected 32 of 100')
    expect(text).toMatch(/Expected cost EUR \d+\.\d\d tests \d+\.\d\d, escapes \d+\.\d\d, returns \d+\.\d\d/)
  })

  test('a typed belief brings costs, and so does a share alone', async () => {
    const belief = await page(lotOf['Paper Lark Cords'], '?mean=0.1&worth=5000')
    expect(belief.text).toContain('You say: 0.1 % on average')
    expect(belief.text).not.toContain('interested parties')
    const share = await page(lotOf['Paper Lark Cords'], '?mean=2')
    expect(share.text).toContain('You enter a share of 2 %, and it is taken as known.')
    expect(share.text).toContain('Expected cost')
  })

  test('a rejected lot is taken as the item says, unless the question says otherwise', async () => {
    const chosen = async (query: string) => {
      const html = await (await officer.get(`/lots/${lotOf['Paper Lark Cords']}/plan?mean=2${query}`)).text()
      return { screened: /value="screen"[^>]* checked/.test(html), costs: textOf(html).includes('none: screened') }
    }
    const { item } = await factsOf(db, lotOf['Paper Lark Cords'] ?? 0)
    await db.update(items).set({ afterRejection: 'screen' }).where(eq(items.id, item.id))
    const [silent, said] = [await chosen(''), await chosen('&after=return')]
    await db.update(items).set({ afterRejection: 'return' }).where(eq(items.id, item.id))
    expect(silent).toEqual({ screened: true, costs: true })
    expect(said).toEqual({ screened: false, costs: false })
    expect(await chosen('')).toEqual({ screened: false, costs: false })
  })

  test('the address where the advice stood leads here, with its question', async () => {
    const answer = await officer.get(`/lots/${lotOf['Paper Lark Cords']}/advice?mean=2&own=50%2F1`)
    expect(answer.status).toBe(301)
    expect(answer.headers.get('location')).toBe(`/lots/${lotOf['Paper Lark Cords']}/plan?mean=2&own=50%2F1`)
  })

  test.each(['Paper Lark Cords', 'Brass Heron Leads'])(
    '%s, believed bad: the picture has every number',
    async (name) => {
      const html = await (await officer.get(`/lots/${lotOf[name]}/plan?mean=60&worth=2`)).text()
      const picture = html.slice(html.indexOf('<svg'), html.indexOf('</svg>'))
      expect(picture.split('class="letter"').length).toBeGreaterThan(2)
      expect(picture).toContain('>100</text>')
      expect(picture.match(/.{9}(NaN|Infinity)/g)).toBeNull()
    },
  )

  test('a good supplier: protection decides, and its price is said', async () => {
    const { text } = await page(lotOf['Brass Heron Leads'], '?mean=0.3&worth=300')
    expect(text).toContain('that is the price of the protection')
    expect(text).toContain('On cost alone, testing a cord is worth it from a break-even of 1.68 %')
  })

  test('a critical item is tested whole', async () => {
    await db.update(items).set({ critical: true }).where(eq(items.name, 'Rack lead, 1.5 m'))
    const { text } = await page(lotOf['Brass Heron Leads'])
    await db.update(items).set({ critical: false }).where(eq(items.name, 'Rack lead, 1.5 m'))
    expect(text).toContain('Test every one of the 360 cords')
    expect(text).toContain('a critical item is always tested whole')
  })

  test('ways that are left out are named, with the reason, and the others compared', async () => {
    await db.update(items).set({ tooMany: '60%' }).where(eq(items.name, 'Rack lead, 1.5 m'))
    const close = await page(lotOf['Brass Heron Leads'], '?good=215&mean=0.3&worth=300')
    const none = await page(lotOf['Brass Heron Leads'], '?good=0&mean=0.3&worth=300')
    await db.update(items).set({ tooMany: '1.5%' }).where(eq(items.name, 'Rack lead, 1.5 m'))
    expect(close.status).toBe(200)
    expect(close.text).toContain('Not compared: two samples (the two numbers are so close that')
    expect(close.text).toContain('the same question always leaves it out')
    expect(none.text).toContain(
      'Not compared: cord by cord in groups (no such plan of at most 10,000 cords keeps both risks)',
    )
  })

  test('where too much is being worked out, the page says so and when to come again', async () => {
    const compute = { run: () => Promise.reject(new Unanswered('many-questions')), end: async () => {} }
    const [person] = await db.select().from(people).where(eq(people.role, 'officer'))
    if (!person) throw new Error('the example has no officer')
    const busy = await testApp(db, { compute }).appAs({ ...person, separateDuties: true })
    const answer = await busy.get(`/lots/${lotOf['Brass Heron Leads']}/plan`)
    expect(answer.status).toBe(503)
    expect(answer.headers.get('retry-after')).toBe('2')
    expect(textOf(await answer.text())).toContain('Too many questions wait to be worked out.')
  })

  test.each([
    ['?worth=5', 'Say which share is worth so many tested cords'],
    ['?own=50', 'Write a plan as cords to test / acceptance number'],
    ['?own=1/1', 'Write a plan as cords to test / acceptance number'],
    ['?percent=0', 'A percentage is above 0 and at most 100'],
    ['?good=1.5', 'Type a whole number of cords from 0'],
    ['?after=burn', 'Choose what happens to a rejected lot'],
    ['?goodrisk=NaN', 'Type how many times in 100'],
  ])('an unreadable question %s is answered beside its field', async (query, sentence) => {
    const { status, text } = await page(lotOf['Brass Heron Leads'], query)
    expect(status).toBe(422)
    expect(text).toContain(sentence)
  })
})

describe('a plan that is weaker than the item demands', () => {
  const weak = { kind: 'contract', sampleSize: '20', acceptanceNumber: '1' }

  test('is refused without a reason, and keeps the reason with it', async () => {
    const lotId = lotOf['Brass Heron Leads'] ?? 0
    const version = String((await factsOf(db, lotId)).version)
    const refused = await officer.post(`/lots/${lotId}/plan`, { ...weak, version, reason: ' ' })
    expect(refused.status).toBe(422)
    expect(textOf(await refused.text())).toContain(
      'lets more lots with too many through than the item demands: say why',
    )
    const done = await officer.post(`/lots/${lotId}/plan`, { ...weak, version, reason: 'contract, clause 4.2' })
    expect(done.status).toBe(303)
    const record = textOf(await (await officer.get(`/lots/${lotId}`)).text())
    expect(record).toContain('Weaker than the item demands, because: contract, clause 4.2')
  })
})
