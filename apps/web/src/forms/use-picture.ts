import { useEffect, useState } from 'react';

/** An address of a picture while it is looked at; null while there is none. */
export function usePicture(picture: Blob | null): string | null {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    if (picture === null) return;
    const made = URL.createObjectURL(picture);
    setAddress(made);
    return () => {
      setAddress(null);
      URL.revokeObjectURL(made);
    };
  }, [picture]);
  return address;
}
