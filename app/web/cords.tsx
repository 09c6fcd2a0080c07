// Pages of a lot's drawn cords: the walk, the bench, one cord.
import { randomUUID } from 'node:crypto'
import { type Context, Hono } from 'hono'
import { BenchPage, type BenchProps } from '../../views/lots/cords/bench-page.tsx'
import { CordPage } from '../../views/lots/cords/cord-page.tsx'
import { PickListPage } from '../../views/lots/cords/pick-list-page.tsx'
import { DrawReviewPage } from '../../views/lots/draw-review-page.tsx'
import { sentenceOf } from '../../views/words/refusals.ts'
import { cordsAtOnce } from '../kit/limits.ts'
import { Refusal } from '../kit/refusal.ts'
import { correctResult } from '../lots/acts/correct-result.ts'
import { drawLot } from '../lots/acts/draw.ts'
import { recordResult } from '../lots/acts/record-result.ts'
import { recountLot } from '../lots/acts/recount.ts'
import { ruleOnCord } from '../lots/acts/rule-on-cord.ts'
import { benchOf } from '../lots/bench.ts'
import { lotAndCordOf, lotAndPickListOf } from '../lots/record/cord.ts'
import { readLot } from '../lots/record/lot.ts'
import { drawnAt } from '../lots/record/pick-list.ts'
import { positionFrom } from '../lots/rules/position.ts'
import { requireRole } from '../people/person.ts'
import { benchForm, correctionForm, recountForm, rulingForm } from './forms/cords.ts'
import { seeDone } from './http/done.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId, runForm } from './http/read.ts'
import { viewerOf } from './http/session.ts'

export const cordRoutes = new Hono<Env>()

cordRoutes.post('/:lot/draw', async (c) => {
  const id = readId(c, 'lot')
  await drawLot(c.var.db, viewerOf(c), id)
  return seeDone(c, `/lots/${id}/draw`, { code: 'draw-made' })
})

/** What drawing will do; nothing is done yet. */
cordRoutes.get('/:lot/draw/review', async (c) => {
  requireRole(viewerOf(c), 'draw-sample')
  const lot = await readLot(c.var.db, readId(c, 'lot'))
  if (!lot.plan || !lot.acts.draw)
    throw new Refusal('conflict', 'lot/state', { lot: lot.id, state: lot.state, act: 'draw' })
  return c.html(<DrawReviewPage {...frameOf(c)} lot={lot} plan={lot.plan} />)
})

cordRoutes.get('/:lot/draw', async (c) => {
  const after = positionFrom(c.req.query('after'))
  const { lot, cords } = await lotAndPickListOf(c.var.db, readId(c, 'lot'), { after, atMost: cordsAtOnce + 1 })
  const next = cords.length > cordsAtOnce ? cords[cordsAtOnce - 1]?.position : undefined
  return c.html(
    <PickListPage {...frameOf(c)} lot={lot} cords={cords.slice(0, cordsAtOnce)} after={after} next={next} />,
  )
})

cordRoutes.get('/:lot/bench', async (c) => c.html(await benchPage(c, positionFrom(c.req.query('after')))))

cordRoutes.post('/:lot/bench', async (c) => {
  const id = readId(c, 'lot')
  try {
    const done = await runForm(c, benchForm, async ({ position, ...form }) => {
      await recordResult(c.var.db, viewerOf(c), id, { position, ...form })
      return position
    })
    if (done.kind === 'done')
      return fetchedByPage(c)
        ? c.html(await benchPage(c, done.result))
        : c.redirect(`/lots/${id}/bench?after=${done.result}`, 303)
    return c.html(await benchAgain(c, done), done.status)
  } catch (error) {
    if (!(error instanceof Refusal) || error.kind !== 'conflict') throw error
    return c.html(await benchPage(c, 0, { conflict: nothingRecorded(sentenceOf(error)) }), 409)
  }
})

cordRoutes.get('/:lot/cords/:position', async (c) => c.html(await cordPage(c, cordIn(c))))

cordRoutes.post('/:lot/cords/:position/correction', async (c) => {
  const { id, position, path } = cordIn(c)
  const done = await runForm(c, correctionForm, (form) =>
    correctResult(c.var.db, viewerOf(c), id, { ...form, position }),
  )
  if (done.kind === 'done') return seeDone(c, path, { code: 'cord-corrected' })
  return c.html(await cordPage(c, { id, position }, done), done.status)
})

cordRoutes.post('/:lot/cords/:position/ruling', async (c) => {
  const { id, position, path } = cordIn(c)
  const done = await runForm(c, rulingForm, (form) => ruleOnCord(c.var.db, viewerOf(c), id, { ...form, position }))
  if (done.kind === 'done') return seeDone(c, path, { code: 'cord-ruled' })
  const typed = { ...done.typed, ruling: done.typed.ruling ?? '' }
  return c.html(await cordPage(c, { id, position }, { ...done, typed }), done.status)
})

cordRoutes.post('/:lot/cords/:position/recount', async (c) => {
  const { id, position } = cordIn(c)
  const done = await runForm(c, recountForm, (form) => recountLot(c.var.db, viewerOf(c), id, { ...form, position }))
  if (done.kind === 'done') return seeDone(c, `/lots/${id}/bench?after=${position}`, { code: 'lot-recounted' })
  const typed = { ...done.typed, position: String(position) }
  return c.html(await benchAgain(c, { ...done, typed }), done.status)
})

/** The page's own script sent the form and puts the answer in its place: a way to another address would cost a second request. */
function fetchedByPage(c: Context<Env>): boolean {
  return c.req.header('hx-request') === 'true'
}

/** Readings of one cord must never stand on the form of another: then only this is said. */
function nothingRecorded(why: string): string {
  return `Nothing of this form was recorded. ${why}.`
}

async function benchPage(
  c: Context<Env>,
  after: number,
  told: Pick<BenchProps, 'conflict' | 'problems' | 'typed'> = {},
) {
  const viewer = viewerOf(c)
  requireRole(viewer, 'use-bench')
  const showLast = after > 0 && !told.problems
  const { cord, ...bench } = await benchOf(c.var.db, viewer, readId(c, 'lot'), { after, showLast })
  const position = positionFrom(told.typed?.position)
  const strayed = position > 0 && position !== cord?.position
  const shown = strayed ? { conflict: nothingRecorded(Object.values(told.problems ?? {}).join('. ')) } : told
  const formKeys = { tested: randomUUID(), untested: randomUUID(), recount: randomUUID() }
  return <BenchPage {...frameOf(c)} {...bench} cord={cord} formKeys={formKeys} {...shown} />
}

/** A form that comes back stays with its own cord: where that one is recorded by now, it is there to be corrected. */
async function benchAgain(c: Context<Env>, told: Required<Pick<CordProps, 'problems' | 'typed'>>) {
  requireRole(viewerOf(c), 'use-bench')
  const id = readId(c, 'lot')
  const position = positionFrom(told.typed?.position)
  if ((await drawnAt(c.var.db, id, position))?.result) return cordPage(c, { id, position }, told)
  return benchPage(c, position - 1, told)
}

type CordProps = Parameters<typeof CordPage>[0]

async function cordPage(
  c: Context<Env>,
  { id, position }: { id: number; position: number },
  told: Pick<CordProps, 'problems' | 'typed'> = {},
) {
  const { lot, cord } = await lotAndCordOf(c.var.db, id, position)
  const formKeys = { tested: randomUUID(), untested: randomUUID(), ruling: randomUUID() }
  return <CordPage {...frameOf(c)} lot={lot} cord={cord} formKeys={formKeys} {...told} />
}

function cordIn(c: Context<Env>) {
  const id = readId(c, 'lot')
  const position = readId(c, 'position')
  return { id, position, path: `/lots/${id}/cords/${position}` }
}
