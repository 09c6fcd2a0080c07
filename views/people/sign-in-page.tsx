// The sign-in page; in the demonstration also one button for each person of the example.

import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { ExamplePerson } from '../../app/people/accounts/example.ts'
import { Field, ProblemSummary } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { roleWords } from '../words/people.ts'

type Doors = { people: ExamplePerson[]; password: string }

type Props = Frame & {
  back: string
  problems?: Problems | undefined
  typed?: Typed | undefined
  /** the demonstration's people, who need no password to come in */
  example: Doors | undefined
}

const does = {
  officer: `${roleWords.officer}: announces lots, chooses how many cords to test`,
  inspector: `${roleWords.inspector}: receives, draws, records`,
  manager: `${roleWords.manager}: sees what is proven, decides`,
}

export function SignInPage({ firm, done, back, problems, typed, example }: Props) {
  return (
    <Page title="Sign in" current="sign-in" firm={firm} done={done}>
      <h1>Sign in</h1>
      {!firm && <p>No accounts yet. Open the set-up link that the service printed on its console.</p>}
      {example && <ExampleDoors {...example} back={back} />}
      <ProblemSummary problems={problems} />
      <form method="post" action="/sign-in">
        <input type="hidden" name="back" value={back} />
        <Field
          name="name"
          label="Your name"
          value={typed?.name}
          problem={problems?.name}
          autocomplete="username"
          required
        />
        <Field
          name="password"
          label="Password"
          type="password"
          problem={problems?.password}
          autocomplete="current-password"
          required
        />
        <button type="submit" class={example ? 'plain' : undefined}>
          Sign in
        </button>
      </form>
    </Page>
  )
}

function ExampleDoors({ people, password, back }: Doors & { back: string }) {
  return (
    <section class="demo-accounts">
      <p>
        This is a demonstration on this machine, with sample data that is deleted when you stop it. Choose a role; sign
        out to switch to another. Where a signature asks for a password, it is <code>{password}</code>.
      </p>
      {people.map(({ id, name, role }) => (
        <form method="post" action="/sign-in/example">
          <input type="hidden" name="back" value={back} />
          <input type="hidden" name="person" value={id} />
          <button type="submit">Continue as {name}</button>
          <span>{does[role]}</span>
        </form>
      ))}
    </section>
  )
}
