// Everybody's own page: choose another password.
import { Field, ProblemSummary, type Problems } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'

type Props = Frame & { shortest: number; problems?: Problems | undefined }

export function PasswordPage({ reader, firm, shortest, problems }: Props) {
  const field = (name: string, label: string, autocomplete: string) => (
    <Field name={name} label={label} type="password" problem={problems?.[name]} autocomplete={autocomplete} required />
  )
  return (
    <Page title="Your password" reader={reader} firm={firm}>
      <h1>Your password</h1>
      <p>
        It is your signature under a decision, so nobody else should know it, the manager who gave you the account
        included. Changing it signs you out everywhere else. At least {shortest} characters.
      </p>
      <ProblemSummary problems={problems} />
      <form method="post" action="/people/password">
        {field('password', 'Present password', 'current-password')}
        {field('newPassword', 'New password', 'new-password')}
        {field('passwordAgain', 'New password again', 'new-password')}
        <button type="submit">Change your password</button>
      </form>
    </Page>
  )
}
