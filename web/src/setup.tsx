import type { PageProps } from './app';
export function Setup(_: PageProps) { return <p>stub</p>; }
