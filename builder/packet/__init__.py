"""The packet: a route's pages as two tagged PDFs, the builder's part and the teacher's part."""
