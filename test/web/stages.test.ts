// Plans of several stages as pages show them: frozen from the advice, drawn, tested at the bench, decided on.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { factsOf } from '../../app/lots/record/lot.ts'
import { drawnInOrder } from '../../app/lots/record/pick-list.ts'
import { type Client, testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { drawnLot, plannedLot, receivedLot } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { PASSWORD, threePeople } from '../support/people.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const { appAs } = testApp(db)
let officer: Client
let inspector: Client
let manager: Client
beforeAll(async () => {
  officer = await appAs(three.officer)
  inspector = await appAs(three.inspector)
  manager = await appAs(three.manager)
})

const stage = (sampleSize: number, acceptanceNumber: number, rejectionNumber = acceptanceNumber + 1) => ({
  sampleSize,
  acceptanceNumber,
  rejectionNumber,
})
const double = { kind: 'double', stages: [stage(3, 0, 2), stage(6, 1)] } as const
const oneByOne = {
  kind: 'sequential',
  stages: [stage(1, -1, 2), stage(2, -1, 2), stage(3, 0, 2), stage(4, 1)],
} as const
const read = async (answer: Response) => textOf(await answer.text())
const cordsOf = async (lotId: number) => (await drawnInOrder(db, lotId)).map(({ position }) => position)

/** The fields of the form on a page that freezes one kind of plan. */
function freezing(page: string, kind: string): Record<string, string> {
  const form = [...page.matchAll(/<form method="post" action="\/lots\/\d+\/plan\?.*?<\/form>/gs)].find(([text]) =>
    text.includes(`name="kind" value="${kind}"`),
  )?.[0]
  if (!form) throw new Error(`nothing freezes ${kind}`)
  return Object.fromEntries(
    [...form.matchAll(/name="(\w+)" value="([^"]*)"/g)].map(([, name = '', value = '']) => [name, value]),
  )
}

const reading = (position: number, side: 'above' | 'short' = 'above') => ({
  key: randomUUID(),
  position: String(position),
  kind: 'tested',
  crosstalkSide: side,
  crosstalkMargin: '3.1',
  returnLossSide: 'above',
  returnLossMargin: '2.2',
  wireMap: 'in-order',
  visual: 'in-order',
})

describe('the page of a plan', () => {
  test.each(['double', 'groups', 'standard'])('freezes %s with every stage that it compared', async (kind) => {
    const size = 240
    const lotId = await receivedLot(db, three, {
      size,
      terms: { tooMany: '12', acceptanceQualityLimit: '1.0', groupSize: 10 },
    })
    const page = await (await officer.get(`/lots/${lotId}/plan/review?kind=${kind}`)).text()
    expect(textOf(page)).toMatch(/Freeze plan [A-H]: test /)
    expect((await factsOf(db, lotId)).plan).toBeUndefined()
    const form = freezing(page, kind)
    const answer = await officer.post(`/lots/${lotId}/plan`, { ...form, reason: 'for the test' })
    expect([answer.status, answer.headers.get('location')]).toEqual([303, `/lots/${lotId}`])
    const { plan } = await factsOf(db, lotId)
    expect(plan?.kind).toBe(kind)
    const stages = plan?.stages.map((each) => `${each.sampleSize}/${each.acceptanceNumber}/${each.rejectionNumber}`)
    expect(stages?.join(' ')).toBe(form.stages)
    // Read in the standard's tables: 240 cords at level II are letter G, and at a limit of 1.0 % the arrow leads to 50 and 1.
    if (kind === 'standard') expect(stages).toEqual(['50/1/2'])
    else expect(stages?.length).toBeGreaterThan(1)
  })

  test('lists cord by cord in groups, with the cartons that each group opens', async () => {
    const lotId = await receivedLot(db, three, { size: 240, terms: { tooMany: '12', groupSize: 10 } })
    const page = await read(await officer.get(`/lots/${lotId}/plan`))
    expect(page).toContain('Cord by cord in groups of 10 a verdict after each group that is clear')
    // Recomputed by the hypergeometric sum over 24 cartons of 10: 24 (1 − C(230, 10) / C(240, 10)) = 8.45.
    expect(page).toContain('each group of 10 opens about 8 of the 24 cartons')
  })

  test.each([
    [{ stages: '3/0/2 30/1/2' }, 'no plan for 24 cords'],
    [{ stages: '3/0/2' }, 'Two samples are two stages'],
    [{ stages: '3/0/2 6/1/2 and more' }, 'This form is not whole'],
    [{ sampleSize: '6', acceptanceNumber: '1' }, 'This form is not whole'],
    [{ kind: 'groups', stages: '3/0/2 6/1/2' }, 'tested in groups of 30 cords'],
    [{ kind: 'sequential', stages: '1/-1/1 2/0/1' }, 'Choose a plan'],
  ])('has %j refused: %s', async (fields, sentence) => {
    const lotId = await receivedLot(db, three)
    const { version } = await factsOf(db, lotId)
    const sent = { version: String(version), kind: 'double', ...fields }
    const answer = await officer.post(`/lots/${lotId}/plan`, Object.fromEntries(Object.entries(sent)))
    expect(answer.status).toBe(422)
    expect(await read(answer)).toContain(sentence)
    expect((await factsOf(db, lotId)).state).toBe('received')
  })
})

describe('the lot’s page', () => {
  test('says the plan in words and keeps its numbers', async () => {
    const two = await read(await officer.get(`/lots/${await plannedLot(db, three, { plan: double })}`))
    expect(two).toContain(
      'Test 3 cords first: accept if none fails, reject as soon as 2 fail. Otherwise test 3 more: accept if at most 1 of all 6 fails, else reject. (two samples)',
    )
    expect(two).toContain('3 cords 0 2 6 cords 1 2')
    const many = await read(await officer.get(`/lots/${await plannedLot(db, three, { plan: oneByOne })}`))
    expect(many).toContain(
      'Test cord by cord, at most 4: accept at the earliest after 3, if none fails; at the latest after 4, if at most 1 fails; reject as soon as too many fail.',
    )
    expect(many).toContain('1 to 2 cords not yet 2')
  })

  test('says of one sample no more than before, and nothing twice', async () => {
    const plan = { kind: 'zero-acceptance', sampleSize: 9, acceptanceNumber: 0 } as const
    const page = await read(await officer.get(`/lots/${await plannedLot(db, three, { plan })}`))
    expect(page).toContain('Test 9 cords; none allowed. (zero acceptance)')
    expect(page).not.toContain('stage by stage')
  })
})

describe('the drawn cords', () => {
  test('stand sample after sample, to be fetched carton after carton', async () => {
    const lotId = await drawnLot(db, three, { plan: double })
    const cords = await cordsOf(lotId)
    const page = await read(await inspector.get(`/lots/${lotId}/draw`))
    const order = [
      'First sample',
      ...cords.slice(0, 3).map((cord) => `cord ${cord}`),
      'Second sample',
      'Only if the samples before',
      ...cords.slice(3).map((cord) => `cord ${cord}`),
    ]
    const places = order.map((words) => page.indexOf(words, page.indexOf('First sample')))
    expect(places).toEqual(places.toSorted((a, b) => a - b))
    expect(places[0]).toBeGreaterThan(0)
  })

  test('stand group after group, each sorted for the walk', async () => {
    const plan = { kind: 'groups', stages: [stage(3, -1, 2), stage(6, 0, 2), stage(9, 1)] } as const
    const lotId = await drawnLot(db, three, { plan, terms: { groupSize: 3 } })
    const page = await read(await inspector.get(`/lots/${lotId}/draw`))
    expect(page).toContain(
      'Test in groups of 3 cords, the next picks of the draw over the whole lot, at most 9: accept at the earliest after 6, if none fails; at the latest after 9, if at most 1 fails; reject as soon as too many fail.',
    )
    // Positions by the published SHA-256 method, recomputed apart from the project with Python's hashlib: 22 19 2, 14 24 13, 17 7 20.
    const walk = [
      'Group 1 of at most 3',
      'cord 2 ',
      'cord 19',
      'cord 22',
      'Group 2',
      'Only if the groups before',
      'cord 13',
    ]
    const places = walk.map((words) => page.indexOf(words, page.indexOf('Group 1')))
    expect(places).toEqual(places.toSorted((a, b) => a - b))
    expect(places[0]).toBeGreaterThan(0)
    const bench = await read(await inspector.get(`/lots/${lotId}/bench`))
    expect(bench).toContain(`Lot ${lotId}, group 1 of at most 3: 0 of 3 done`)
  })

  test('stand in the order of the draw where each may bring the verdict', async () => {
    const lotId = await drawnLot(db, three, { plan: oneByOne })
    const page = await read(await inspector.get(`/lots/${lotId}/draw`))
    expect(page).toContain('Cord by cord, in this order')
    // Positions by the published SHA-256 method, recomputed apart from the project with Python's hashlib.
    expect(page).toContain('1: carton 3, place 2 cord 22 2: carton 2, place 9 cord 19 3: carton 1, place 2 cord 2')
  })
})

describe('the bench', () => {
  test('goes through the first sample, says when to stop, and offers no cord of the second', async () => {
    const lotId = await drawnLot(db, three, { plan: double })
    const cords = await cordsOf(lotId)
    expect(await read(await inspector.get(`/lots/${lotId}/bench`))).toContain(
      `Lot ${lotId}, first sample: 0 of 3 done 0 do not conform · rejected from 2`,
    )
    for (const position of cords.slice(0, 3)) await inspector.post(`/lots/${lotId}/bench`, reading(position))
    const page = await read(await inspector.get(`/lots/${lotId}/bench?after=${cords[2]}`))
    expect(page).toContain('Stop: the plan has its verdict.')
    expect(page).toContain(
      'The plan accepts this lot (first sample): 0 of 3 tested cords are nonconforming, and at this point the plan allows none.',
    )
    expect(page).not.toContain('Record cord')
    const early = await inspector.post(`/lots/${lotId}/bench`, reading(cords[4] ?? 0))
    expect(early.status).toBe(409)
    expect(await read(early)).toContain(`The plan has its verdict without cord ${cords[4]}: it is not tested.`)
  })

  test('goes on with the second sample, and says since which cord the lot is rejected', async () => {
    const lotId = await drawnLot(db, three, { plan: double })
    const cords = await cordsOf(lotId)
    for (const [at, position] of cords.slice(0, 3).entries())
      await inspector.post(`/lots/${lotId}/bench`, reading(position, at === 1 ? 'short' : 'above'))
    const page = await read(await inspector.get(`/lots/${lotId}/bench?after=${cords[2]}`))
    expect(page).toContain(`Lot ${lotId}, second sample: 3 of 6 done 1 does not conform · rejected from 2`)
    expect(page).toContain(`Record cord ${cords[3]}`)
    await inspector.post(`/lots/${lotId}/bench`, reading(cords[3] ?? 0, 'short'))
    expect(await read(await inspector.get(`/lots/${lotId}/bench?after=${cords[3]}`))).toContain(
      `The plan rejects this lot: decided at cord ${cords[3]}. You may stop; a manager decides.`,
    )
    const record = await read(await manager.get(`/lots/${lotId}`))
    expect(record).toContain(
      `The plan rejects this lot (second sample): 2 of 4 tested cords are nonconforming, and at this point 2 are too many. It was decided at cord ${cords[3]}.`,
    )
    expect(record).toContain('They belong to the plan and the stage at which it ended')
    expect(record).toContain('no fair estimate: how much is tested depends on what is found')
  })

  test('takes cord by cord in the order of the draw', async () => {
    const lotId = await drawnLot(db, three, { plan: oneByOne })
    const page = await read(await inspector.get(`/lots/${lotId}/bench`))
    expect(page).toContain(`Lot ${lotId}, cord 1 of at most 4: 0 of 1 done`)
    expect(page).toContain('Record cord 22')
    await inspector.post(`/lots/${lotId}/bench`, reading(22))
    expect(await read(await inspector.get(`/lots/${lotId}/bench?after=22`))).toContain('Record cord 19')
  })
})

test('the manager accepts after a clear first sample, and the evidence keeps the whole plan', async () => {
  const lotId = await drawnLot(db, three, { plan: double })
  for (const position of (await cordsOf(lotId)).slice(0, 3))
    await inspector.post(`/lots/${lotId}/bench`, reading(position))
  const page = await read(await manager.get(`/lots/${lotId}/decision`))
  // By hand: C(10, 3) / C(24, 3) = 0.0593 and C(9, 3) / C(24, 3) = 0.0415.
  expect(page).toContain('Nonconforming among the untested 0 to 14 of 21 cords')
  const { version } = await factsOf(db, lotId)
  const form = { version: String(version), outcome: 'accepted', reason: '', password: PASSWORD }
  expect((await manager.post(`/lots/${lotId}/decision`, form)).status).toBe(303)
  const evidence = await read(await manager.get(`/lots/${lotId}/evidence`))
  expect(evidence).toContain('Test 3 cords first: accept if none fails')
  expect(evidence).toContain('Where the plan has several stages the bounds belong to the plan and its end')
  expect(evidence).toContain('Up to 14 of the 21 untested cords could be nonconforming')
})
