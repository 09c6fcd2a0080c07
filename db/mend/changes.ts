// What is changed in postgres.js 3.4.9, line for line, so that a lost connection ends neither the process nor a waiting query.

export type Change = { from: string; to: string }

/** A file of the package, told by its SHA-256 as it was published and as it is after the changes. */
export type MendedFile = { path: string; published: string; mended: string; changes: Change[] }

/** Upstream has the first as porsager/postgres#1066 and #1154; the others came up when connections were ended under load. */
export const mendedFiles: MendedFile[] = [
  {
    path: 'src/connection.js',
    published: 'ee3a218d9aa6a6f2887c1a19da50009335fe84c11a5431d5cab72d6bc528632f',
    mended: '00ecb9a6e4cd5ef31cc55e21ab7b096da5d27d9d68b2739072e21566b9c00799',
    changes: [
      {
        // a transaction that was broken sends its ROLLBACK to a connection without a socket: nothing would ever settle it
        from: `    if (q.cancelled)
      return

    try {
      q.state = backend`,
        to: `    if (q.cancelled)
      return

    if (!socket)
      return (queryError(q, Errors.connection('CONNECTION_CLOSED', options)), true)

    try {
      q.state = backend`,
      },
      {
        // was a TypeError in setImmediate, which nobody can catch: the process ended
        from: '    const x = socket.write(chunk, fn)\n',
        to: '    const x = !socket || socket.write(chunk, fn)\n',
      },
      {
        // a closed connection kept its half-sent bytes, its last query, its last error and its count of rows for the next
        // user, left unsettled what was sent between the socket's error and its end, and tried again without a pause
        from: `    if (initial)
      return reconnect()

    !hadError && (query || sent.length) && error(Errors.connection('CONNECTION_CLOSED', options, socket))
    closedTime = performance.now()
    hadError && options.shared.retries++
    delay = (typeof backoff === 'function' ? backoff(options.shared.retries) : backoff) * 1000
`,
        to: `    error(Errors.connection('CONNECTION_CLOSED', options, socket))
    chunk = nextWriteTimer = query = results = errorResponse = null
    result = new Result()
    rows = 0
    closedTime = performance.now()
    hadError && options.shared.retries++
    delay = (typeof backoff === 'function' ? backoff(options.shared.retries) : backoff) * 1000

    if (initial)
      return reconnect()

`,
      },
      {
        // a connection lost while its types are read was an unhandled rejection: the process ended. Who waits for the connection is told by \`errored\`
        from: '        return fetchArrayTypes()\n',
        to: '        return fetchArrayTypes().catch(noop)\n',
      },
      {
        from: `    query.execute()
  }

  function ErrorResponse(x) {`,
        to: `    query.execute().catch(noop)
  }

  function ErrorResponse(x) {`,
      },
      {
        // a cursor whose connection was lost while its rows were looked at would ask the next connection for the rest
        from: '      const x = await Promise.resolve(query.cursorFn(result))\n',
        to: `      const q = query
      const x = await Promise.resolve(q.cursorFn(result))
      if (q !== query)
        return
`,
      },
    ],
  },
  {
    path: 'src/index.js',
    published: '4e21f5733e70d79cffc10d10d4ef01031de4a9ac862210e43f8870029fd103ed',
    mended: 'c73f705e5292f3257cf9db52491d72e452d3fd3c8f03f6fe9adef422f1baeb99',
    changes: [
      {
        from: `    let savepoints = 0
      , connection
      , prepare = null
`,
        to: `    let savepoints = 0
      , connection
      , gone = null
      , prepare = null
`,
      },
      {
        // what waits for its turn in a broken transaction is settled
        from: `        new Promise((_, reject) => connection.onclose = reject)
`,
        to: `        new Promise((_, reject) => connection.onclose = e => {
          reject(gone = e)
          while (queries.length)
            queries.shift().reject(e)
        })
`,
      },
      {
        // a transaction that outlived its connection wrote on: into the next transaction there, or into none
        from: `        q.catch(e => uncaughtError || (uncaughtError = e))
        c.queue === full`,
        to: `        q.catch(e => uncaughtError || (uncaughtError = e))
        gone
          ? q.reject(gone)
          : c.queue === full`,
      },
    ],
  },
]
