// Which folder may use which: client → shared/requests.ts, server → shared → grammar. Imports of types count too.
// Cycles and what the encoder shares are looked for by .ci/arrows.mjs, since this tool cannot tell an import of types, which is free
// to go round, from one that runs.
/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    {
      name: "grammar-stands-alone",
      comment: "grammar/ knows nothing of keypads' meaning, files or editors.",
      severity: "error",
      from: { path: "^grammar/" },
      to: { pathNot: ["^grammar/", "(^|/)node_modules/(@chevrotain|chevrotain)/"] },
    },
    {
      name: "shared-uses-grammar-only",
      comment: "shared/ is pure meaning: of this repository it may use grammar/ alone.",
      severity: "error",
      from: { path: "^shared/" },
      to: { pathNot: ["^shared/", "^grammar/", "(^|/)node_modules/"], dependencyTypesNot: ["core"] },
    },
    {
      name: "no-node-below-server",
      comment: "grammar/ and shared/ also run in a browser worker.",
      severity: "error",
      from: { path: "^(grammar|shared)/" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "server-never-uses-client",
      comment: "The server talks to any editor, over the protocol.",
      severity: "error",
      from: { path: "^server/" },
      to: { path: "^(client|tests|samples|\\.ci)/" },
    },
    {
      name: "client-uses-requests-only",
      comment: "The client talks to the server over the protocol; of shared/ it may use the types of custom requests.",
      severity: "error",
      from: { path: "^client/" },
      to: { path: "^(grammar|server|tests|shared|\\.ci)/", pathNot: "^shared/requests\\.ts$" },
    },
    {
      name: "nothing-unresolved",
      comment: "An import that leads nowhere would pass every other rule.",
      severity: "error",
      from: {},
      to: { couldNotResolve: true, pathNot: "^vscode$" },
    },
  ],
  options: {
    // TypeScript 7 has no parser that this tool could call; swc reads the same syntax and keeps imports of types.
    parser: "swc",
    doNotFollow: { path: "node_modules" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      extensions: [".ts", ".js", ".mjs", ".json"],
      conditionNames: ["node", "import", "require", "default", "types"],
    },
  },
};
