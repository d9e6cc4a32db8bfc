import type { PageProps } from './app';
export function Fish(_: PageProps) { return <p>stub</p>; }
