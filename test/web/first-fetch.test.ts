// The first fetch as its three people meet it: frozen beside the plan, on the list, at the bench, and what it costs to stop before its end.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { drawnInOrder } from '../../app/lots/record/pick-list.ts'
import { type Client, testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { clear, drawnInSeries, drawnLot, failing, type OneSeries, receivedLot } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { PASSWORD, threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { appAs } = testApp(db)
let inspector: Client
let manager: Client
beforeAll(async () => {
  inspector = await appAs(three.inspector)
  manager = await appAs(three.manager)
})

// 24 cords, level II, 10 %: letter C. MIL-STD-105E (1989), Tables I and II-A, read: 5 cords, 1 may fail.
const terms = { acceptanceQualityLimit: '10' }
const plan = { kind: 'zero-acceptance', sampleSize: 12, acceptanceNumber: 0 } as const
const read = async (client: Client, path: string) => textOf(await (await client.get(path)).text())
const costs = (left: string) =>
  `The first fetch still has ${left} which the standard’s verdict needs. You may stop; then this lot has no verdict under the standard, and how strictly the series is inspected is not known from this lot on.`

async function tested(lotId: number, ...entries: (typeof clear)[]): Promise<void> {
  const cords = (await drawnInOrder(db, lotId)).filter(({ result }) => !result)
  for (const [at, entry] of entries.entries())
    await recordResult(db, three.inspector, lotId, { key: randomUUID(), position: cords[at]?.position ?? 0, ...entry })
}

describe('a lot of a series', () => {
  let lotId = 0
  beforeAll(async () => {
    lotId = await drawnLot(db, three, { terms, plan })
  })

  test('shows the standard’s plan that is frozen beside the plan of the house', async () => {
    expect(await read(manager, `/lots/${lotId}`)).toContain(
      'The standard’s plan 5 cords, 1 allowed: normal inspection, acceptance quality limit 10 %, level II, letter C for the switching rules alone, by the first 5 picks of the draw',
    )
  })

  test('has the first fetch as a walk of its own on the list, and counts it at the bench', async () => {
    const list = await read(inspector, `/lots/${lotId}/draw`)
    expect(list).toContain('First fetch The first 5 picks of the draw, for the standard’s verdict. Test these first')
    expect(list.indexOf('The others Carton')).toBeGreaterThan(list.indexOf('First fetch'))
    expect(await read(inspector, `/lots/${lotId}/bench`)).toContain(
      'First fetch, for the standard’s verdict: 0 of 5 tested, 0 not conforming: no verdict under the standard yet.',
    )
  })

  test('says once the plan rejects that the first fetch goes on, and what stopping costs, to who tests and who decides', async () => {
    await tested(lotId, failing)
    const bench = await read(inspector, `/lots/${lotId}/bench`)
    expect(bench).toContain('It was decided at cord')
    expect(bench).toContain(costs('4 cords'))
    const page = await read(manager, `/lots/${lotId}`)
    expect(page).toContain(costs('4 cords'))
    expect(page).toContain('Stop here and decide on this lot')
    expect(await read(manager, `/lots/${lotId}/decision`)).toContain(
      `Not finished. ${costs('4 cords')} Screening tests these cords all the same, and the verdict follows.`,
    )
  })

  test('says nothing of it any more once it has ended', async () => {
    await tested(lotId, clear, clear, clear, clear)
    expect(await read(inspector, `/lots/${lotId}/bench`)).toContain('You may stop; a manager decides.')
    const page = await read(manager, `/lots/${lotId}`)
    expect(page).toContain('5 of 5 tested, 1 not conforming: accepted under the standard.')
    for (const path of ['', '/bench', '/decision'])
      expect(await read(manager, `/lots/${lotId}${path}`)).not.toContain('The first fetch still has')
  })
})

test('the page of a plan says what the first fetch is, that it is charged, and which ways leave no verdict', async () => {
  // 480 cords, level II, 1.0 %: letter H, 50 cords, 1 may fail (MIL-STD-105E, Tables I and II-A, read)
  const lotId = await receivedLot(db, three, { size: 480, terms: { acceptanceQualityLimit: '1.0', tooMany: '5' } })
  const officer = await appAs(three.officer)
  const page = await read(officer, `/lots/${lotId}/plan`)
  expect(page).toContain('Its 50 cords are the first picks of the draw, tested first and to their own end')
  expect(page).toContain(
    'A way that draws fewer than 50 leaves the lot without a verdict under the standard, and how strictly the series is inspected is then not known: No test; Your percentage.',
  )
})

describe('a series whose state is not known', () => {
  let series: OneSeries | undefined
  const supplier = () => read(manager, `/suppliers/${series?.supplierId}`)

  /** One more lot of the series, stopped at its first cord or tested to the end of its first fetch, and decided in the browser. */
  async function decided(...entries: (typeof clear)[]): Promise<number> {
    const { lotId, ...own } = await drawnInSeries({ db, owner }, three, { terms, plan }, series)
    series ??= own
    await tested(lotId, ...entries)
    const page = await (await manager.get(`/lots/${lotId}/decision`)).text()
    const version = /name="version" value="(\d+)"/.exec(page)?.[1] ?? ''
    const answer = await manager.post(`/lots/${lotId}/decision`, {
      ...{ version, password: PASSWORD, reason: 'for the test' },
      outcome: entries.includes(failing) ? 'returned' : 'accepted',
    })
    expect(answer.status).toBe(303)
    return lotId
  }

  test('says since which lot, what is possible, what the next lot gets and what would settle it; and is known again', async () => {
    const all = Array.from({ length: 12 }, () => clear)
    await decided(...all)
    const stopped = await decided(failing)
    expect(await supplier()).toContain(
      `Not known since lot ${stopped}. Lot ${stopped} has no verdict under the standard: neither dropped nor counted as accepted. ` +
        `The series stands under normal inspection whatever lot ${stopped} would have been; what comes after it is open. ` +
        'The next lot gets the plan of normal inspection. The state is known again after 4 lots accepted in a row from here',
    )
    expect(await supplier()).toContain('1 of 5 1 none: the first picks are not all tested')
    const [told] =
      await owner`select detail -> 'standard' as standard from audit where subject = ${`lot/${stopped}`} and action = 'lot.returned'`
    expect(told).toEqual({ standard: 'not known' })
    const second = await decided(failing, failing)
    expect(await supplier()).toContain(
      'The series stands under tightened or normal inspection. The next lot gets the plan of tightened inspection, the strictest of these.',
    )
    expect(await read(manager, `/lots`)).toContain(
      `how strictly it is inspected is not known since lot ${stopped}: tightened or normal is possible.`,
    )
    // 24 cords at 10 %, tightened: letter D, 8 cords, 1 may fail (MIL-STD-105E, Table II-B, read)
    const next = await decided(...all)
    expect(await read(manager, `/lots/${next}`)).toContain(
      'The standard’s plan 8 cords, 1 allowed: tightened inspection',
    )
    for (let more = 0; more < 3; more++) await decided(...all)
    expect(await supplier()).toContain(`Not known since lot ${stopped}.`)
    const last = await decided(...all)
    expect(await supplier()).toContain('Normal inspection. Known again since')
    expect(await supplier()).toContain(`(with the decision on lot ${last})`)
    expect(await read(manager, `/lots`)).not.toContain('is not known since')
    expect(second).toBeLessThan(last)

    await owner`alter table plans disable trigger written_once`
    await owner`update plans set standard_sample_size = null, standard_acceptance_number = null, standard_rejection_number = null,
      standard_severity = null, standard_limit = null, standard_level = null, standard_letter = null, standard_standing = null where lot_id = ${stopped}`
    await owner`alter table plans enable trigger written_once`
    expect(await supplier()).toContain(
      'One lot was planned before the standard’s plan was frozen with each lot. Each is taken by the plan that the item’s limit asks for at its size',
    )
  })
})
