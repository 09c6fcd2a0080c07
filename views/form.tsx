// The form kit: every field says what it wants, what is wrong with it, and keeps what was typed.
import type { Child } from 'hono/jsx'
import type { Problems } from '../app/kit/problems.ts'

type Common = {
  name: string
  label: Child
  hint?: Child
  problem?: string | undefined
  required?: boolean
  /** needed only where two forms of one page have a field of the same name */
  id?: string
}

type FieldProps = Common & {
  value?: string | number | undefined
  type?: 'text' | 'password' | 'date' | 'file' | 'email'
  inputmode?: 'text' | 'decimal' | 'numeric'
  autocomplete?: string
  unit?: string
  maxlength?: number
  /** short: a number; long: a name */
  size?: 'short' | 'long'
  autofocus?: boolean
}

/** One line to type in. */
export function Field(props: FieldProps) {
  const { name, label, hint, problem, value, type = 'text', inputmode, unit, size = 'long' } = props
  const id = props.id ?? `field-${name}`
  return (
    <div class={problem ? 'field wrong' : 'field'}>
      <label for={id}>{label}</label>
      <Hint id={id} hint={hint} />
      <span class="entry">
        <input
          id={id}
          name={name}
          type={type}
          value={value}
          inputmode={inputmode}
          class={size}
          maxlength={props.maxlength}
          required={props.required}
          autofocus={props.autofocus}
          autocomplete={props.autocomplete ?? 'off'}
          {...about(id, hint, problem)}
        />
        {unit && <span class="unit">{unit}</span>}
      </span>
      <Problem id={id} problem={problem} />
    </div>
  )
}

type ShortFieldProps = Common & { value: string; inputmode?: 'text' | 'decimal' | 'numeric' }

/** A question of a panel: label and hint at the left, a short field at the right. */
export function ShortField({ name, label, hint, value, problem, inputmode = 'text', ...rest }: ShortFieldProps) {
  const id = rest.id ?? `field-${name}`
  return (
    <div class={problem ? 'row wrong' : 'row'}>
      <label for={id}>
        {label}
        {hint && <small id={`${id}-hint`}>{hint}</small>}
      </label>
      <input id={id} name={name} value={value} inputmode={inputmode} autocomplete="off" {...about(id, hint, problem)} />
      <Problem id={id} problem={problem} />
    </div>
  )
}

type TextAreaProps = Common & { value?: string | undefined; rows?: number; maxlength?: number }

/** Several lines to type in. */
export function TextArea({ name, label, hint, problem, value, rows = 3, required, maxlength, ...rest }: TextAreaProps) {
  const id = rest.id ?? `field-${name}`
  return (
    <div class={problem ? 'field wrong' : 'field'}>
      <label for={id}>{label}</label>
      <Hint id={id} hint={hint} />
      <textarea id={id} name={name} rows={rows} required={required} maxlength={maxlength} {...about(id, hint, problem)}>
        {value}
      </textarea>
      <Problem id={id} problem={problem} />
    </div>
  )
}

export type Option = { value: string; label: Child; note?: Child; disabled?: boolean }
type OptionsProps = Common & { value?: string | undefined; options: Option[] }

/** One of a few, all in sight: radio buttons with a sentence each. `large` for gloves. */
export function ChoiceField(props: OptionsProps & { large?: boolean }) {
  const { name, label, hint, problem, value, options, required, large } = props
  const id = props.id ?? `field-${name}`
  return (
    <fieldset id={id} class={`choice${large ? ' large' : ''}${problem ? ' wrong' : ''}`} {...about(id, hint, problem)}>
      <legend>{label}</legend>
      <Hint id={id} hint={hint} />
      <div class="choices">
        {options.map((option) => (
          <label class="option">
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === value}
              required={required}
              disabled={option.disabled}
            />
            <span>
              {option.label}
              {option.note && <small>{option.note}</small>}
            </span>
          </label>
        ))}
      </div>
      <Problem id={id} problem={problem} />
    </fieldset>
  )
}

type SelectProps = OptionsProps & { /** what no choice means */ first?: string }

/** One of many. An empty first line stands for "not chosen yet", or for what `first` says. */
export function Select({ name, label, hint, problem, value, options, required, ...rest }: SelectProps) {
  const id = rest.id ?? `field-${name}`
  return (
    <div class={problem ? 'field wrong' : 'field'}>
      <label for={id}>{label}</label>
      <Hint id={id} hint={hint} />
      <select id={id} name={name} required={required} {...about(id, hint, problem)}>
        <option value="">{rest.first ?? 'choose'}</option>
        {options.map((option) => (
          <option value={option.value} selected={option.value === value} disabled={option.disabled}>
            {option.label}
          </option>
        ))}
      </select>
      <Problem id={id} problem={problem} />
    </div>
  )
}

/** The form's own name (a uuid made when it was shown): sent twice, it is carried out once. */
export function FormKey({ value }: { value: string }) {
  return <input type="hidden" name="key" value={value} />
}

/** The state of the record that the reader saw: changed meanwhile, the form is refused. */
export function Version({ value }: { value: number }) {
  return <input type="hidden" name="version" value={value} />
}

/** Stands first on a page that comes back: how much is wrong, each with a way to its field. */
export function ProblemSummary({ problems }: { problems: Problems | undefined }) {
  const all = Object.entries(problems ?? {})
  if (all.length === 0) return null
  return (
    <div class="problems" role="alert">
      <p>
        <b>
          {all.length === 1 ? '1 field needs correcting.' : `${all.length} fields need correcting.`} Nothing was done.
        </b>
      </p>
      <ul>
        {all.map(([name, sentence]) => (
          <li>{name === 'form' ? sentence : <a href={`#field-${name}`}>{sentence}</a>}</li>
        ))}
      </ul>
    </div>
  )
}

/** A list of facts: each a name and what it is. */
export function Facts({ children }: { children?: Child }) {
  return <dl class="facts">{children}</dl>
}

export function Fact({ name, children }: { name: Child; children?: Child }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}

function Hint({ id, hint }: { id: string; hint: Child | undefined }) {
  return hint === undefined ? null : (
    <small class="hint" id={`${id}-hint`}>
      {hint}
    </small>
  )
}

function Problem({ id, problem }: { id: string; problem: string | undefined }) {
  return problem ? (
    <p class="problem" id={`${id}-problem`}>
      {problem}
    </p>
  ) : null
}

function about(id: string, hint: Child | undefined, problem: string | undefined) {
  const described = [hint === undefined ? undefined : `${id}-hint`, problem && `${id}-problem`]
    .filter(Boolean)
    .join(' ')
  return { 'aria-describedby': described || undefined, 'aria-invalid': problem ? 'true' : undefined }
}
