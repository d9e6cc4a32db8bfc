import type { PageProps } from './app';
export function Tunnels(_: PageProps) { return <p>stub</p>; }
