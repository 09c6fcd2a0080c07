// Pages of links that work once: the manager who hands one over sees the first, who opens it one of the others.

import type { Problems, Typed } from '../../app/kit/problems.ts'
import { Field, ProblemSummary } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { PasswordTwice } from './password-twice.tsx'

type ResetProps = Frame & { name: string; address: string; hours: number }

export function ResetPage({ name, address, hours, viewer, firm, done }: ResetProps) {
  return (
    <Page title="Password reset" current="people" viewer={viewer} firm={firm} done={done}>
      <h1>The password of {name} is reset</h1>
      <p>
        {name} is signed out everywhere and chooses a new password by this link. Hand it over in person: the first to
        open it chooses. It works once, for {hours} hours, and is shown here only now.
      </p>
      <p>
        <code>{address}</code>
      </p>
      <p>
        <a href="/people">Back to the people</a>
      </p>
    </Page>
  )
}

type FormProps = { token: string; shortest: number; problems?: Problems | undefined; typed?: Typed | undefined }

export function NewPasswordPage({ token, name, shortest, problems }: FormProps & { name: string }) {
  return (
    <Page title="New password">
      <h1>A new password for {name}</h1>
      <p>It is also your signature, so nobody else should know it. This link works once.</p>
      <ProblemSummary problems={problems} />
      <form method="post" action={`/new-password/${token}`}>
        <PasswordTwice hint={guessed(shortest)} problems={problems} />
        <button type="submit">Take this password</button>
      </form>
    </Page>
  )
}

export function NewManagerPage({ token, shortest, problems, typed }: FormProps) {
  return (
    <Page title="New manager">
      <h1>A new manager</h1>
      <p>No manager has an active account any more. You become one by this link, which works once.</p>
      <ProblemSummary problems={problems} />
      <form method="post" action={`/new-manager/${token}`}>
        <Field
          name="name"
          label="Your name"
          value={typed?.name}
          problem={problems?.name}
          autocomplete="name"
          required
        />
        <PasswordTwice hint={guessed(shortest)} problems={problems} />
        <button type="submit">Make me a manager</button>
      </form>
    </Page>
  )
}

function guessed(shortest: number): string {
  return `At least ${shortest} characters, and nothing that is guessed first, such as your name.`
}
