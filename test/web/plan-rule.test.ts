// A rule chosen at announcement as its pages take it: the announcement, the page of a plan, the receipt with its check, the record.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { factsOf } from '../../app/lots/record/lot.ts'
import { type Client, testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { announcedLot } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { threePeople } from '../support/people.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
let officer: Client
let inspector: Client
beforeAll(async () => {
  const { appAs } = testApp(db)
  officer = await appAs(three.officer)
  inspector = await appAs(three.inspector)
})

const wanted = { size: 480, terms: { tooMany: '1%', catchOf100: '95' } }
const read = async (client: Client, path: string) => textOf(await (await client.get(path)).text())
const versionOf = async (lotId: number) => String((await factsOf(db, lotId)).version)

async function announced(rule: string): Promise<number> {
  const { supplier, item } = await factsOf(db, await announcedLot(db, three, wanted))
  const answer = await officer.post('/lots', {
    key: randomUUID(),
    supplierId: String(supplier.id),
    itemId: String(item.id),
    size: '480',
    cartons: '48',
    cordsInCarton: '10',
    productionMark: 'week 31',
    purchaseOrder: 'PO 4711',
    rule,
  })
  return Number(answer.headers.get('location')?.split('/')[2])
}

/** Inputs of the form that a page holds, as a browser would send them. */
function formIn(html: string): Record<string, string> {
  const form = html.slice(html.lastIndexOf('<form'), html.lastIndexOf('</form>'))
  return Object.fromEntries(
    [...form.matchAll(/<input type="hidden" name="(\w+)" value="([^"]*)"/g)].map(([, name = '', value = '']) => [
      name,
      value,
    ]),
  )
}

describe('a lot announced with “none allowed”', () => {
  test('shows on its check page the plan that the second press freezes, and names both people', async () => {
    const lotId = await announced('zero-acceptance')
    expect(await read(officer, `/lots/${lotId}/plan`)).toContain(`chosen by ${three.officer.name}`)
    const dock = await read(inspector, `/lots/${lotId}/receipt`)
    expect(dock).toContain('Every carton carries the production mark week 31')
    const count = {
      version: await versionOf(lotId),
      size: '480',
      cartons: '48',
      cordsInCarton: '10',
      note: 'wet & cold',
    }
    const check = await inspector.post(`/lots/${lotId}/receipt`, { ...count, oneMark: 'yes' })
    const html = await check.text()
    expect(check.status).toBe(200)
    // 5 of 480 too many, 95 of 100: the fewest with C(475, n) ÷ C(480, n) ≤ 0.05, by whole numbers in Python
    expect(textOf(html)).toContain('Test 216 of 480, none allowed.')
    expect(textOf(html)).toContain('With the next press this plan is frozen for good')
    expect((await factsOf(db, lotId)).state).toBe('announced')
    const sent = formIn(html)
    expect((await inspector.post(`/lots/${lotId}/receipt`, { ...sent, note: count.note })).status).toBe(303)
    const record = await read(inspector, `/lots/${lotId}`)
    expect(record).toContain(
      `By the rule that ${three.officer.name} chose at announcement; ${three.inspector.name} confirmed count, cartons and production mark.`,
    )
    expect((await factsOf(db, lotId)).received?.note).toBe('wet & cold')
  })

  test.each([
    {
      change: { size: '469', cartons: '47' },
      sentence: 'The count differs from the announced number by more than the item allows',
    },
    {
      change: { oneMark: 'no' },
      sentence: 'It is not confirmed that every carton carries the announced production mark',
    },
  ])('waits with $change, and the pages say why', async ({ change, sentence }) => {
    const lotId = await announced('zero-acceptance')
    const count = { version: await versionOf(lotId), size: '480', cartons: '48', cordsInCarton: '10', note: '' }
    const { oneMark = 'yes', ...counted } = { ...count, ...change } as Record<string, string>
    const form = oneMark === 'yes' ? { ...counted, oneMark } : counted
    const html = await (await inspector.post(`/lots/${lotId}/receipt`, form)).text()
    expect(textOf(html)).toContain(`The plan waits for the officer. ${sentence}`)
    expect((await inspector.post(`/lots/${lotId}/receipt`, formIn(html))).status).toBe(303)
    expect(await read(inspector, `/lots/${lotId}`)).toContain(`The plan waits for the officer. ${sentence}`)
    expect(await read(officer, `/lots/${lotId}/plan`)).toContain(`did not freeze a plan. ${sentence}`)
  })
})

describe('the page of a plan of an announced lot', () => {
  test('says that nothing is frozen yet, and offers as rules the ways that need no history', async () => {
    const lotId = await announcedLot(db, three, wanted)
    const page = await read(officer, `/lots/${lotId}/plan?own=50/1`)
    expect(page).toContain('For the 480 cords announced. Nothing is frozen yet')
    expect(page).toContain('Only ways that need nothing of this supplier’s earlier lots can be a rule')
    const choices = async (who: Client) => {
      const html = await (await who.get(`/lots/${lotId}/plan?own=50/1`)).text()
      return [...html.matchAll(/type="radio" name="kind" value="([a-z-]+)"/g)].map(([, kind]) => kind)
    }
    expect((await choices(officer)).sort()).toEqual(['contract', 'every-cord', 'single', 'zero-acceptance'])
    expect(await choices(inspector)).toEqual([])
  })

  test('shows what choosing a rule will do before it is done', async () => {
    const lotId = await announcedLot(db, three, wanted)
    const html = await (await officer.get(`/lots/${lotId}/plan/review?own=50%2F1&kind=contract`)).text()
    expect(textOf(html)).toMatch(/Choose [A-H] as the rule: the plan you named\./)
    expect(textOf(html)).toContain('Until then you can give the rule up.')
    expect(formIn(html)).toMatchObject({ kind: 'contract', sampleSize: '50', acceptanceNumber: '1' })
    expect((await factsOf(db, lotId)).rule).toBeUndefined()
    const none = await officer.get(`/lots/${lotId}/plan/review?kind=double`)
    expect(textOf(await none.text())).toContain('Choose a plan that can be frozen.')
  })

  test('takes a rule, a weaker one with its reason alone, and gives it up', async () => {
    const lotId = await announcedLot(db, three, wanted)
    const weak = { kind: 'contract', sampleSize: '50', acceptanceNumber: '1' }
    const refused = await officer.post(`/lots/${lotId}/rule`, { ...weak, version: await versionOf(lotId), reason: '' })
    expect(refused.status).toBe(422)
    expect(textOf(await refused.text())).toContain('than the item demands: say why')
    const taken = { ...weak, version: await versionOf(lotId), reason: 'clause 4.2' }
    expect((await officer.post(`/lots/${lotId}/rule`, taken)).status).toBe(303)
    expect(await read(officer, `/lots/${lotId}`)).toContain('Rule of the plan The plan 50/1, chosen by')
    const both = { kind: 'single', good: '1', goodRisk: '0.05', version: await versionOf(lotId) }
    expect((await officer.post(`/lots/${lotId}/rule`, both)).status).toBe(303)
    expect((await factsOf(db, lotId)).rule?.rule).toEqual({ kind: 'single', good: 1, goodRisk: 0.05 })
    expect((await inspector.post(`/lots/${lotId}/rule`, { ...both, version: await versionOf(lotId) })).status).toBe(403)
    const up = { kind: 'none', version: await versionOf(lotId) }
    expect((await officer.post(`/lots/${lotId}/rule`, up)).status).toBe(303)
    expect(await read(officer, `/lots/${lotId}`)).not.toContain('Rule of the plan')
  })
})
