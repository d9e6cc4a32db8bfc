import type { PageProps } from './app';
export function Orders(_: PageProps) { return <p>stub</p>; }
