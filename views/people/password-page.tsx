// Everybody's own page: choose another password, and sign out elsewhere.

import type { Problems } from '../../app/kit/problems.ts'
import { Field, ProblemSummary } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'

type Props = Frame & {
  shortest: number
  /** the present one was typed by a manager and must be changed first */
  temporary: boolean
  /** how many other sessions of the reader are open */
  elsewhere: number
  problems?: Problems | undefined
}

export function PasswordPage({ viewer, firm, done, shortest, temporary, elsewhere, problems }: Props) {
  const field = (name: string, label: string, autocomplete: string) => (
    <Field name={name} label={label} type="password" problem={problems?.[name]} autocomplete={autocomplete} required />
  )
  return (
    <Page title="Your password" viewer={viewer} firm={firm} done={done}>
      <h1>Your password</h1>
      {temporary && (
        <p>
          <b>Choose a password of your own first.</b> A manager typed the present one, so it cannot be your signature:
          everything else opens once you have changed it.
        </p>
      )}
      <p>
        It is your signature under a decision, so nobody else should know it, the manager who gave you the account
        included. Changing it signs you out everywhere else. At least {shortest} characters, and nothing that is guessed
        first, such as your name.
      </p>
      <ProblemSummary problems={problems} />
      <form method="post" action="/people/password">
        {field('password', 'Current password', 'current-password')}
        {field('newPassword', 'New password', 'new-password')}
        {field('passwordAgain', 'New password again', 'new-password')}
        <button type="submit">Change your password</button>
      </form>
      {!temporary && <Elsewhere sessions={elsewhere} />}
    </Page>
  )
}

function Elsewhere({ sessions }: { sessions: number }) {
  return (
    <>
      <h2>Where you are signed in</h2>
      {sessions === 0 ? (
        <p>Only here.</p>
      ) : (
        <form method="post" action="/people/password/elsewhere">
          <p>Here, and in {sessions === 1 ? 'one other browser' : `${sessions} other browsers`}.</p>
          <button type="submit" class="plain">
            Sign out everywhere else
          </button>
        </form>
      )}
    </>
  )
}
