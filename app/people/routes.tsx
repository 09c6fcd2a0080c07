// Pages of people: signing in and out, the first run, and who has an account.
import { randomUUID } from 'node:crypto'
import { type Context, Hono } from 'hono'
import type { Problems } from '../../views/form.tsx'
import { PeoplePage } from '../../views/people/list.tsx'
import { PasswordPage } from '../../views/people/password.tsx'
import { SetUpPage } from '../../views/people/set-up.tsx'
import { SignInPage } from '../../views/people/sign-in.tsx'
import type { Env } from '../http/env.ts'
import { ownPath } from '../http/own-path.ts'
import { carryOut, readId } from '../http/read.ts'
import { giveCookie, readerOf, takeCookie } from '../http/session.ts'
import { loopback } from '../kit/host.ts'
import { Refusal } from '../kit/refusal.ts'
import { addPerson } from './add.ts'
import { changePassword } from './change-password.ts'
import { deactivate } from './deactivate.ts'
import { examplePeople, signInAsExample } from './example.ts'
import { exampleForm, passwordForm, personForm, roleForm, setUpForm, signInForm } from './forms.ts'
import { peopleOf } from './list.ts'
import { SHORTEST_PASSWORD } from './password.ts'
import { requireRole } from './person.ts'
import { closeSession } from './session.ts'
import { setRole } from './set-role.ts'
import { checkSetUpKey, setUp } from './set-up.ts'
import { signIn } from './sign-in.ts'

/** No account needed. */
export const entryRoutes = new Hono<Env>()

entryRoutes.get('/sign-in', async (c) =>
  c.html(<SignInPage firm={c.var.firm} back={ownPath(c.req.query('back'))} example={await doorsOf(c)} />),
)

entryRoutes.post('/sign-in', async (c) => {
  const done = await carryOut(c, signInForm, (form) => signIn(c.var.db, form))
  const back = ownPath((await c.req.parseBody()).back)
  if (done.kind === 'refused')
    return c.html(<SignInPage firm={c.var.firm} back={back} example={await doorsOf(c)} {...done} />, 422)
  giveCookie(c, done.result)
  return c.redirect(back, 303)
})

entryRoutes.post('/sign-in/example', async (c) => {
  if (!c.var.demo || !loopback(c.req.header('host'))) throw new Refusal('missing', 'There is no such page')
  const done = await carryOut(c, exampleForm, (form) => signInAsExample(c.var.db, form.person))
  if (done.kind === 'refused') return c.redirect('/sign-in', 303)
  giveCookie(c, done.result)
  return c.redirect(ownPath((await c.req.parseBody()).back), 303)
})

entryRoutes.post('/sign-out', async (c) => {
  const token = takeCookie(c)
  if (token !== undefined) await closeSession(c.var.db, token)
  return c.redirect('/sign-in', 303)
})

entryRoutes.get('/set-up/:token', async (c) => {
  const token = c.req.param('token')
  await checkSetUpKey(c.var.db, token)
  return c.html(<SetUpPage token={token} shortest={SHORTEST_PASSWORD} />)
})

entryRoutes.post('/set-up/:token', async (c) => {
  const { db, example } = c.var
  const token = c.req.param('token')
  await checkSetUpKey(db, token)
  const done = await carryOut(c, setUpForm, async ({ start, firm, ...manager }) => {
    if (start === 'empty') return setUp(db, token, { ...manager, firm })
    if (example.names.includes(manager.name))
      throw new Refusal('invalid', 'Somebody of the example has that name', 'name')
    return example.setUp(token, manager)
  })
  if (done.kind === 'refused') return c.html(<SetUpPage token={token} shortest={SHORTEST_PASSWORD} {...done} />, 422)
  giveCookie(c, done.result)
  return c.redirect('/lots', 303)
})

/** Mounted under /people, for those who are signed in. */
export const peopleRoutes = new Hono<Env>()

peopleRoutes.get('/', async (c) => c.html(await peoplePage(c)))

peopleRoutes.get('/password', (c) => c.html(passwordPage(c)))

peopleRoutes.post('/password', async (c) => {
  const done = await carryOut(c, passwordForm, (form) => changePassword(c.var.db, readerOf(c), form))
  if (done.kind === 'refused') return c.html(passwordPage(c, done.problems), 422)
  giveCookie(c, done.result)
  return c.redirect('/lots', 303)
})

peopleRoutes.post('/', async (c) => {
  const done = await carryOut(c, personForm, (form) => addPerson(c.var.db, readerOf(c), form))
  return done.kind === 'refused' ? c.html(await peoplePage(c, done), done.status) : c.redirect('/people', 303)
})

peopleRoutes.post('/:person/role', async (c) => {
  const done = await carryOut(c, roleForm, (form) => setRole(c.var.db, readerOf(c), readId(c, 'person'), form))
  return done.kind === 'refused' ? c.html(await peoplePage(c, done), 422) : c.redirect('/people', 303)
})

peopleRoutes.post('/:person/deactivation', async (c) => {
  await deactivate(c.var.db, readerOf(c), readId(c, 'person'))
  return c.redirect('/people', 303)
})

function passwordPage(c: Context<Env>, problems?: Problems) {
  return <PasswordPage reader={readerOf(c)} firm={c.var.firm} shortest={SHORTEST_PASSWORD} problems={problems} />
}

async function peoplePage(c: Context<Env>, form: Pick<Parameters<typeof PeoplePage>[0], 'problems' | 'typed'> = {}) {
  const reader = readerOf(c)
  requireRole(reader, 'manager', 'see the people')
  const people = await peopleOf(c.var.db)
  const page = { reader, firm: c.var.firm, people, formKey: randomUUID(), shortest: SHORTEST_PASSWORD }
  return <PeoplePage {...page} {...form} />
}

/** The buttons of the demonstration: only in an example database, only on this machine. */
async function doorsOf(c: Context<Env>) {
  const { demo, firm, db } = c.var
  if (!demo || !firm?.example || !loopback(c.req.header('host'))) return undefined
  return { people: await examplePeople(db), password: demo.password }
}
