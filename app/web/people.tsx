// Pages of people: everybody's own password and sessions, and who has an account.
import { randomUUID } from 'node:crypto'
import { type Context, Hono } from 'hono'
import { DeactivationPage } from '../../views/people/deactivation-page.tsx'
import { ResetPage } from '../../views/people/link-page.tsx'
import { PasswordPage } from '../../views/people/password-page.tsx'
import { PeoplePage } from '../../views/people/people-page.tsx'
import type { Problems } from '../kit/problems.ts'
import { Refusal } from '../kit/refusal.ts'
import { addPerson } from '../people/accounts/add.ts'
import { deactivate } from '../people/accounts/deactivate.ts'
import { peopleOf } from '../people/accounts/list.ts'
import { reactivate } from '../people/accounts/reactivate.ts'
import { setRole } from '../people/accounts/set-role.ts'
import { changePassword } from '../people/passwords/change-password.ts'
import { HOURS, pathOfLink } from '../people/passwords/link.ts'
import { SHORTEST_PASSWORD } from '../people/passwords/new-password.ts'
import { resetPassword } from '../people/passwords/reset.ts'
import { requireRole } from '../people/person.ts'
import { otherSessionsOf, signOutElsewhere } from '../people/sessions/session.ts'
import { passwordForm, personForm, roleForm } from './forms/people.ts'
import { seeDone } from './http/done.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId, runForm } from './http/read.ts'
import { giveCookie, tokenOf, viewerOf } from './http/session.ts'

/** Mounted under /people, for those who are signed in. */
export const peopleRoutes = new Hono<Env>()

peopleRoutes.get('/', async (c) => c.html(await peoplePage(c)))

peopleRoutes.get('/password', async (c) => c.html(await passwordPage(c)))

peopleRoutes.post('/password', async (c) => {
  const done = await runForm(c, passwordForm, (form) => changePassword(c.var.db, viewerOf(c), form))
  if (done.kind === 'refused') return c.html(await passwordPage(c, done.problems), done.status)
  giveCookie(c, done.result)
  return seeDone(c, '/lots', { code: 'password-changed' })
})

peopleRoutes.post('/password/elsewhere', async (c) => {
  await signOutElsewhere(c.var.db, viewerOf(c), tokenOf(c) ?? '')
  return seeDone(c, '/people/password', { code: 'signed-out-elsewhere' })
})

peopleRoutes.post('/', async (c) => {
  const done = await runForm(c, personForm, (form) => addPerson(c.var.db, viewerOf(c), form))
  if (done.kind === 'refused') return c.html(await peoplePage(c, done), done.status)
  return seeDone(c, '/people', { code: 'account-added' })
})

peopleRoutes.post('/:person/role', async (c) => {
  const done = await runForm(c, roleForm, (form) => setRole(c.var.db, viewerOf(c), readId(c, 'person'), form))
  if (done.kind === 'refused') return c.html(await peoplePage(c, done), done.status)
  return seeDone(c, '/people', { code: 'role-changed' })
})

/** What deactivating will do; nothing is done yet. */
peopleRoutes.get('/:person/deactivation', async (c) => {
  requireRole(viewerOf(c), 'deactivate-people')
  const id = readId(c, 'person')
  const person = (await peopleOf(c.var.db)).find((each) => each.id === id && each.active)
  if (!person) throw new Refusal('missing', 'person/missing', {})
  return c.html(<DeactivationPage {...frameOf(c)} person={person} />)
})

peopleRoutes.post('/:person/deactivation', async (c) => {
  await deactivate(c.var.db, viewerOf(c), readId(c, 'person'))
  return seeDone(c, '/people', { code: 'account-deactivated' })
})

peopleRoutes.post('/:person/reactivation', async (c) => {
  await reactivate(c.var.db, viewerOf(c), readId(c, 'person'))
  return seeDone(c, '/people', { code: 'account-activated' })
})

/** The link is shown on this page alone: nobody can look it up again. */
peopleRoutes.post('/:person/password-reset', async (c) => {
  const { name, token } = await resetPassword(c.var.db, viewerOf(c), readId(c, 'person'))
  const address = new URL(pathOfLink('new-password', token), c.req.header('origin')).href
  const hours = HOURS['new-password']
  return c.html(<ResetPage viewer={viewerOf(c)} firm={c.var.firm} name={name} address={address} hours={hours} />)
})

async function passwordPage(c: Context<Env>, problems?: Problems) {
  const { db, firm, passwordTemporary } = c.var
  const reader = viewerOf(c)
  const elsewhere = await otherSessionsOf(db, reader.id, tokenOf(c) ?? '')
  const page = { viewer: reader, firm, shortest: SHORTEST_PASSWORD, temporary: passwordTemporary, elsewhere, problems }
  return <PasswordPage {...page} />
}

async function peoplePage(c: Context<Env>, form: Pick<Parameters<typeof PeoplePage>[0], 'problems' | 'typed'> = {}) {
  const reader = viewerOf(c)
  requireRole(reader, 'see-people')
  const people = await peopleOf(c.var.db)
  const own = reader.id
  const page = { viewer: reader, firm: c.var.firm, people, own, formKey: randomUUID(), shortest: SHORTEST_PASSWORD }
  return <PeoplePage {...page} {...form} />
}
