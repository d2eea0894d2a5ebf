/** The same program on the module path. */
module org.example.workshop {
  requires org.surfactantblend;
}
