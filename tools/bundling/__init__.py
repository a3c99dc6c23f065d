"""How the desk's pages become the few files that a browser loads: TypeScript and styles through esbuild, which npm
fetches and Node runs. Only the standard library is needed here, so that a wheel can be built in an environment of its
own."""
