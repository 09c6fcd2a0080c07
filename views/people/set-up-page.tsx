// The first run's page: who is the first manager, and whether to start empty or with the example.

import type { Problems, Typed } from '../../app/kit/problems.ts'
import { ChoiceField, Field, ProblemSummary } from '../form.tsx'
import { Page } from '../layout.tsx'
import { PasswordTwice } from './password-twice.tsx'

type Props = { token: string; shortest: number; problems?: Problems | undefined; typed?: Typed | undefined }

export function SetUpPage({ token, shortest, problems, typed }: Props) {
  return (
    <Page title="Set up">
      <h1>Set up: the first manager</h1>
      <p>
        Nobody has an account here yet. The first manager adds the others: procurement officers, who announce lots and
        choose how many cords to test, and warehouse inspectors, who draw and record. This link works once.
      </p>
      <ProblemSummary problems={problems} />
      <form method="post" action={`/set-up/${token}`}>
        <Fields shortest={shortest} problems={problems} typed={typed} />
        <button type="submit">Create manager account</button>
      </form>
    </Page>
  )
}

function Fields({ shortest, problems, typed }: Omit<Props, 'token'>) {
  return (
    <>
      <Field name="name" label="Your name" value={typed?.name} problem={problems?.name} autocomplete="name" required />
      <PasswordTwice
        label="Password"
        hint={`At least ${shortest} characters. It also signs your decisions.`}
        problems={problems}
      />
      <ChoiceField
        name="start"
        label="Start with"
        value={typed?.start ?? 'empty'}
        problem={problems?.start}
        options={[
          { value: 'empty', label: 'An empty record', note: 'for your own suppliers and lots' },
          {
            value: 'example',
            label: 'The example',
            note: 'an invented firm with people (your password is theirs too), suppliers and lots in every state, named as an example on every page',
          },
        ]}
      />
      <Field
        name="firm"
        label="Name of your firm"
        hint="Not needed for the example, which has its own."
        value={typed?.firm}
        problem={problems?.firm}
        autocomplete="organization"
      />
    </>
  )
}
