// Ways in: signing in and out, the first run, and links that work once. No account needed.
import { type Context, Hono } from 'hono'
import { NewManagerPage, NewPasswordPage } from '../../views/people/link-page.tsx'
import { SetUpPage } from '../../views/people/set-up-page.tsx'
import { SignInPage } from '../../views/people/sign-in-page.tsx'
import { loopback } from '../kit/host.ts'
import { Refusal } from '../kit/refusal.ts'
import { examplePeople, signInAsExample } from '../people/accounts/example.ts'
import { setUp } from '../people/accounts/set-up.ts'
import { checkLink } from '../people/passwords/link.ts'
import { SHORTEST_PASSWORD } from '../people/passwords/new-password.ts'
import { becomeManager } from '../people/passwords/recover.ts'
import { choosePassword, personOfLink } from '../people/passwords/reset.ts'
import { signOut } from '../people/sessions/session.ts'
import { signIn } from '../people/sessions/sign-in.ts'
import { chosenPasswordForm, exampleForm, newManagerForm, setUpForm, signInForm } from './forms/people.ts'
import { seeDone, takeDone } from './http/done.ts'
import type { Env } from './http/env.ts'
import { ownPath } from './http/own-path.ts'
import { runForm } from './http/read.ts'
import { giveCookie, takeCookie } from './http/session.ts'

export const entryRoutes = new Hono<Env>()

entryRoutes.get('/sign-in', async (c) =>
  c.html(
    <SignInPage firm={c.var.firm} done={takeDone(c)} back={ownPath(c.req.query('back'))} example={await doorsOf(c)} />,
  ),
)

entryRoutes.post('/sign-in', async (c) => {
  const done = await runForm(c, signInForm, (form) => signIn(c.var.db, { ...form, network: c.var.network }))
  const back = ownPath((await c.req.parseBody()).back)
  if (done.kind === 'refused')
    return c.html(<SignInPage firm={c.var.firm} back={back} example={await doorsOf(c)} {...done} />, done.status)
  giveCookie(c, done.result)
  return c.redirect(back, 303)
})

entryRoutes.post('/sign-in/example', async (c) => {
  if (!c.var.demo || !loopback(c.req.header('host'))) throw new Refusal('missing', 'page/missing', {})
  const done = await runForm(c, exampleForm, (form) => signInAsExample(c.var.db, form.person))
  if (done.kind === 'refused') return c.redirect('/sign-in', 303)
  giveCookie(c, done.result)
  return c.redirect(ownPath((await c.req.parseBody()).back), 303)
})

entryRoutes.post('/sign-out', async (c) => {
  const token = takeCookie(c)
  if (token !== undefined) await signOut(c.var.db, token)
  return seeDone(c, '/sign-in', { code: 'signed-out' })
})

entryRoutes.get('/set-up/:token', async (c) => {
  const token = c.req.param('token')
  await checkLink(c.var.db, 'set-up', token)
  return c.html(<SetUpPage token={token} shortest={SHORTEST_PASSWORD} />)
})

entryRoutes.post('/set-up/:token', async (c) => {
  const { db, example } = c.var
  const token = c.req.param('token')
  await checkLink(db, 'set-up', token)
  const done = await runForm(c, setUpForm, async ({ start, firm, ...manager }) => {
    if (start === 'empty') return setUp(db, token, { ...manager, firm })
    if (example.names.includes(manager.name)) throw new Refusal('invalid', 'example/name-taken', {}, 'name')
    return example.setUp(token, manager)
  })
  if (done.kind === 'refused')
    return c.html(<SetUpPage token={token} shortest={SHORTEST_PASSWORD} {...done} />, done.status)
  giveCookie(c, done.result)
  return c.redirect('/lots', 303)
})

entryRoutes.get('/new-password/:token', async (c) => {
  const token = c.req.param('token')
  const { name } = await personOfLink(c.var.db, token)
  return c.html(<NewPasswordPage token={token} name={name} shortest={SHORTEST_PASSWORD} />)
})

entryRoutes.post('/new-password/:token', async (c) => {
  const token = c.req.param('token')
  const { name } = await personOfLink(c.var.db, token)
  const done = await runForm(c, chosenPasswordForm, (form) => choosePassword(c.var.db, token, form.password))
  if (done.kind === 'refused')
    return c.html(<NewPasswordPage token={token} name={name} shortest={SHORTEST_PASSWORD} {...done} />, done.status)
  giveCookie(c, done.result)
  return c.redirect('/lots', 303)
})

entryRoutes.get('/new-manager/:token', async (c) => {
  const token = c.req.param('token')
  await checkLink(c.var.db, 'new-manager', token)
  return c.html(<NewManagerPage token={token} shortest={SHORTEST_PASSWORD} />)
})

entryRoutes.post('/new-manager/:token', async (c) => {
  const token = c.req.param('token')
  await checkLink(c.var.db, 'new-manager', token)
  const done = await runForm(c, newManagerForm, (form) => becomeManager(c.var.db, token, form))
  if (done.kind === 'refused')
    return c.html(<NewManagerPage token={token} shortest={SHORTEST_PASSWORD} {...done} />, done.status)
  giveCookie(c, done.result)
  return c.redirect('/lots', 303)
})

/** The buttons of the demonstration: only in an example database, only on this machine. */
async function doorsOf(c: Context<Env>) {
  const { demo, firm, db } = c.var
  if (!demo || !firm?.example || !loopback(c.req.header('host'))) return undefined
  return { people: await examplePeople(db), password: demo.password }
}
