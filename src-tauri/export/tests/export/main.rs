//! Files that leave the tablet, from records of our own invention.

#[cfg(test)]
mod between;
#[cfg(test)]
mod csv_file;
#[cfg(test)]
mod fhir;
#[cfg(test)]
mod kept;
#[cfg(test)]
mod made;
#[cfg(test)]
mod pdf_page;
