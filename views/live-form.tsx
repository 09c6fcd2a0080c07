// A form whose answer follows what is typed, where scripts run; without them its button asks.
import type { Child } from 'hono/jsx'

/** The page is morphed, so that focus and open folds stay; a newer question ends an older one; the address is replaced. */
export function LiveForm({ path, children }: { path: string; children: Child }) {
  return (
    <form
      class="live"
      action={path}
      method="get"
      hx-get={path}
      hx-trigger="submit, input delay:400ms"
      hx-sync="this:replace"
      hx-target="main"
      hx-select="main"
      hx-swap="outerMorph"
      hx-replace-url="true"
    >
      {children}
    </form>
  )
}
